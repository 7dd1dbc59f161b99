/**
 * What does not price: questions and retests, and the other conditions.
 */
'use client';

import { useBuilder } from './builder-context.tsx';
import { Panel, StrayFaults } from './builder-panel.tsx';
import { CONDITION_GROUPS } from './condition-settings.ts';
import { idOfPath, readAt } from './document-path.ts';
import { beginMethod, methodSettings, RETEST_SETTINGS, RETESTED } from './retest-settings.ts';
import type { Setting } from './setting.ts';
import { Settings } from './setting-view.tsx';

export function BlocksPart() {
  return (
    <>
      <section className="builder-part" aria-labelledby="formula-retest">
        <h3 id="formula-retest" tabIndex={-1}>
          Questions and retests
        </h3>
        <RetestPanel />
      </section>
      <section
        className="builder-part"
        aria-labelledby="formula-conditions"
        id={idOfPath(['conditions'])}
        tabIndex={-1}
      >
        <h3 id="formula-conditions" tabIndex={-1}>
          Other conditions
        </h3>
        <p className="hint">None of these changes the price. What you leave empty is not agreed.</p>
        <ConditionPanels />
      </section>
    </>
  );
}

function ConditionPanels() {
  const { document } = useBuilder();
  const block = document['conditions'];
  const known = CONDITION_GROUPS.flatMap(({ settings }) => settings);
  return (
    <>
      <StrayFaults at={['conditions']} settings={known} />
      {CONDITION_GROUPS.map(({ heading, hint, settings }, index) => {
        const said = settings.filter(({ path }) => readAt(block, path) !== undefined).length;
        return (
          <Panel
            key={heading}
            at={['conditions']}
            share={String(index + 1)}
            name={heading}
            summary={said === 0 ? 'nothing said' : said === 1 ? 'one thing said' : `${said} things said`}
            settings={settings}
          >
            {hint === undefined ? null : <p className="hint">{hint}</p>}
            <Settings at={['conditions']} settings={settings} />
          </Panel>
        );
      })}
      {block === undefined ? null : <LeaveOut block="conditions" name="other conditions" />}
    </>
  );
}

function RetestPanel() {
  const { document } = useBuilder();
  const block = document['retest'];
  const measures = readAt(block, ['measures']);
  const names = typeof measures === 'object' && measures !== null ? Object.keys(measures) : [];
  const methods = names.flatMap((name): Setting[] =>
    methodSettings(name, readAt(measures, [name])).map((setting) => ({
      ...setting,
      path: ['measures', name, ...setting.path],
    })),
  );
  return (
    <>
      <Panel
        at={['retest']}
        name="Retests"
        summary={
          block === undefined ? 'nothing agreed' : `decided for ${names.map(measureName).join(', ') || '…'}`
        }
        settings={[...RETEST_SETTINGS, ...methods]}
      >
        <Settings at={['retest']} settings={RETEST_SETTINGS} />
        {names.map((name) => (
          <MeasureMethod key={name} name={name} />
        ))}
        <AddMeasure taken={names} />
      </Panel>
      {block === undefined ? null : <LeaveOut block="retest" name="questions and retests" />}
    </>
  );
}

function measureName(name: string): string {
  return RETESTED.find(({ value }) => value === name)?.label ?? name;
}

function MeasureMethod({ name }: { readonly name: string }) {
  const { document, change } = useBuilder();
  const at = ['retest', 'measures', name];
  return (
    <fieldset className="field setting-rows" id={idOfPath(at)} tabIndex={-1}>
      <legend>Where {measureName(name)} is questioned</legend>
      <Settings at={at} settings={methodSettings(name, readAt(document, at))} />
      <button
        type="button"
        className="quiet"
        onClick={() =>
          change({
            kind: 'remove',
            path: at,
            said: `How ${measureName(name)} is decided is removed.`,
            next: 'formula-add-retested',
          })
        }
      >
        Remove {measureName(name)}
      </button>
    </fieldset>
  );
}

function AddMeasure({ taken }: { readonly taken: readonly string[] }) {
  const { change } = useBuilder();
  return (
    <div className="field">
      <label htmlFor="formula-add-retested">Say how a figure is decided</label>
      <select
        id="formula-add-retested"
        value=""
        onChange={({ target: { value } }) => {
          const method = value === 'weight' ? 'second-scale' : 'referee-stands';
          const path = ['retest', 'measures', value];
          change({ kind: 'write', path, value: beginMethod(method), next: idOfPath([...path, 'method']) });
        }}
      >
        <option value="">Choose a figure…</option>
        {RETESTED.filter(({ value }) => !taken.includes(value)).map(({ value, label }) => (
          <option key={value} value={value}>
            {label}
          </option>
        ))}
      </select>
    </div>
  );
}

function LeaveOut({ block, name }: { readonly block: 'retest' | 'conditions'; readonly name: string }) {
  const { change } = useBuilder();
  return (
    <button
      type="button"
      className="quiet"
      onClick={() =>
        change({
          kind: 'remove',
          path: [block],
          said: `All ${name} are left out.`,
          next: `formula-${block}`,
        })
      }
    >
      Leave out all {name}
    </button>
  );
}
