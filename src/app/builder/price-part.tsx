/**
 * The lines of the price, in their order: each a panel that can be moved, and one more of any kind.
 */
'use client';

import type { PriceTerm } from '../../domain/agreement/document.ts';
import { useBuilder } from './builder-context.tsx';
import { Panel, StrayFaults } from './builder-panel.tsx';
import { type Draft, idOfPath, readAt, shownText } from './document-path.ts';
import { TERM_HINTS, TERM_WORDS } from './format-words.ts';
import { Settings } from './setting-view.tsx';
import { beginTerm, tonOf } from './term-fitting.ts';
import { namesOf, termSettings } from './term-settings.ts';
import { termSummary } from './term-summary.ts';

export function PricePart({ termKeys }: { readonly termKeys: readonly number[] }) {
  const { document } = useBuilder();
  const price = document['price'];
  const terms: readonly unknown[] = Array.isArray(price) ? price : [];
  return (
    <section className="builder-part" aria-labelledby="formula-price" id={idOfPath(['price'])} tabIndex={-1}>
      <h3 id="formula-price" tabIndex={-1}>
        The price of a load
      </h3>
      <p className="hint">
        Worked out line by line from the top. A percent or a limit covers the lines above it, so the order
        matters.
      </p>
      {terms.map((term, index) => (
        <TermPanel key={termKeys[index]} term={term} index={index} count={terms.length} />
      ))}
      <StrayFaults
        at={['price']}
        settings={terms.map((_, index) => ({ kind: 'ticks', path: [index], label: '', options: [] }))}
      />
      <AddTerm />
    </section>
  );
}

interface TermPanelProps {
  readonly term: unknown;
  readonly index: number;
  readonly count: number;
}

function TermPanel({ term, index, count }: TermPanelProps) {
  const { document, change, currency } = useBuilder();
  const at = ['price', index];
  const label = shownText(readAt(term, ['label'])) || `Line ${index + 1}`;
  const settings = termSettings(term, { currency, references: namesOf(document['references']) });
  const kind = readAt(term, ['term']) as PriceTerm['term'];
  return (
    <Panel at={at} name={`${index + 1}. ${label}`} summary={termSummary(term, currency)} settings={settings}>
      <p className="hint">{TERM_HINTS[kind] ?? 'Change this line in the file’s text, below.'}</p>
      <Settings at={at} settings={settings} />
      <div className="panel-moves">
        {index === 0 ? null : (
          <button
            type="button"
            className="quiet"
            aria-label={`Move ${label} up`}
            onClick={() => change({ kind: 'move-term', from: index, to: index - 1, label })}
          >
            Move up
          </button>
        )}
        {index === count - 1 ? null : (
          <button
            type="button"
            className="quiet"
            aria-label={`Move ${label} down`}
            onClick={() => change({ kind: 'move-term', from: index, to: index + 1, label })}
          >
            Move down
          </button>
        )}
        <button
          type="button"
          className="quiet"
          aria-label={`Remove ${label}`}
          onClick={() =>
            change({
              kind: 'remove',
              path: at,
              said: `The line “${label}” is removed.`,
              next: 'formula-price',
            })
          }
        >
          Remove
        </button>
      </div>
    </Panel>
  );
}

function AddTerm() {
  const { document, change } = useBuilder();
  const [reference] = namesOf(document['references']);
  const add = (kind: PriceTerm['term']): Draft => beginTerm(kind, { reference, ton: tonOf(document) });
  return (
    <details className="more-fields add-term">
      <summary>Add a line</summary>
      <ul className="add-kinds">
        {(Object.keys(TERM_WORDS) as PriceTerm['term'][]).map((kind) => (
          <li key={kind}>
            <button
              type="button"
              className="quiet"
              aria-describedby={`formula-kind-${kind}`}
              onClick={() => change({ kind: 'add-term', term: add(kind) })}
            >
              {TERM_WORDS[kind]}
            </button>
            <p className="hint" id={`formula-kind-${kind}`}>
              {TERM_HINTS[kind]}
            </p>
          </li>
        ))}
      </ul>
    </details>
  );
}
