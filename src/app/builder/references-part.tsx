/**
 * The prices of grain or forage that the formula follows, each a panel.
 */
'use client';

import { useState } from 'react';
import { useBuilder } from './builder-context.tsx';
import { Panel, StrayFaults } from './builder-panel.tsx';
import { idOfPath, readAt, shownText } from './document-path.ts';
import {
  EMPTY_REFERENCE,
  freeReferenceName,
  referenceSettings,
  referenceSummary,
} from './reference-settings.ts';
import { Settings } from './setting-view.tsx';
import { namesOf } from './term-settings.ts';

export function ReferencesPart() {
  const { document, change } = useBuilder();
  const references = namesOf(document['references']);
  return (
    <section
      className="builder-part"
      aria-labelledby="formula-references"
      id={idOfPath(['references'])}
      tabIndex={-1}
    >
      <h3 id="formula-references">Reference prices</h3>
      <p className="hint">
        A public price that the formula follows, like that of corn. A flat price needs none.
      </p>
      <StrayFaults
        at={['references']}
        settings={references.map((name) => ({ kind: 'ticks', path: [name], label: name, options: [] }))}
      />
      {references.map((name, index) => (
        // A name changes while it is typed; the place does not.
        // biome-ignore lint/suspicious/noArrayIndexKey: references never move
        <ReferencePanel key={index} name={name} names={references} />
      ))}
      <button
        type="button"
        className="quiet"
        id="formula-add-reference"
        onClick={() => {
          const name = freeReferenceName(document['references']);
          const path = ['references', name];
          change({ kind: 'write', path, value: EMPTY_REFERENCE, next: idOfPath(path) });
        }}
      >
        {references.length === 0 ? 'Add a reference price' : 'Add another reference price'}
      </button>
    </section>
  );
}

function ReferencePanel({ name, names }: { readonly name: string; readonly names: readonly string[] }) {
  const { document, change, currency } = useBuilder();
  const at = ['references', name];
  const reference = readAt(document, at);
  const groups = referenceSettings(reference, currency);
  const isUsed = lineCount(document['price'], name);
  return (
    <Panel
      at={at}
      name={name}
      summary={referenceSummary(reference, currency)}
      settings={groups.flatMap(({ settings }) => settings)}
    >
      <ReferenceName key={name} name={name} names={names} />
      {groups.map(({ heading, settings }) => (
        <div key={heading}>
          <h4>{heading}</h4>
          <Settings at={at} settings={settings} />
        </div>
      ))}
      <p className="hint">
        {isUsed === 0
          ? 'No price line follows it yet.'
          : `Followed by ${isUsed === 1 ? 'one price line' : `${isUsed} price lines`}.`}
      </p>
      <button
        type="button"
        className="quiet"
        onClick={() =>
          change({
            kind: 'remove',
            path: at,
            said: `The reference price ${name} is removed.`,
            next: 'formula-add-reference',
          })
        }
      >
        Remove {name}
      </button>
    </Panel>
  );
}

function lineCount(price: unknown, name: string): number {
  const terms: readonly unknown[] = Array.isArray(price) ? price : [];
  return terms.filter((term) => readAt(term, ['at', 'reference']) === name).length;
}

/** The name is the key of the group, so it is written when it is whole: on leaving the field. */
function ReferenceName({ name, names }: { readonly name: string; readonly names: readonly string[] }) {
  const { change } = useBuilder();
  const [typed, setTyped] = useState(name);
  const id = `${idOfPath(['references', name])}-name`;
  const wanted = typed.trim();
  const fault =
    wanted === ''
      ? 'must not be empty'
      : wanted !== name && names.includes(wanted)
        ? `must be another: there is a reference ${shownText(wanted)} already`
        : undefined;
  const finish = () => {
    if (fault === undefined && wanted !== name) change({ kind: 'rename-reference', from: name, to: wanted });
  };
  return (
    <div className="field">
      <label htmlFor={id}>Called</label>
      <input
        id={id}
        type="text"
        autoComplete="off"
        value={typed}
        aria-invalid={fault !== undefined || undefined}
        aria-describedby={fault === undefined ? undefined : `${id}-fault`}
        onChange={({ target }) => setTyped(target.value)}
        onBlur={finish}
        onKeyDown={(event) => {
          if (event.key === 'Enter') finish();
        }}
      />
      {fault === undefined ? null : (
        <p className="fault" id={`${id}-fault`}>
          The name {fault}
        </p>
      )}
    </div>
  );
}
