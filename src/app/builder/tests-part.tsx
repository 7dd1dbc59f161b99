/**
 * Samples and tests: how loads are sampled, how test figures are rounded, and which loads the buyer may refuse.
 */
'use client';

import { TESTED } from '../../domain/agreement/measures.ts';
import { opening } from '../place/sentence.ts';
import { useBuilder } from './builder-context.tsx';
import { Panel } from './builder-panel.tsx';
import { readAt, shownText } from './document-path.ts';
import { MEASURE_OPTIONS, measureLabel, PLAN_WORDS } from './format-words.ts';
import { optionsOf, type Setting } from './setting.ts';
import { Settings } from './setting-view.tsx';

const SAMPLING: readonly Setting[] = [
  {
    kind: 'list',
    path: ['plan'],
    label: 'Samples',
    options: optionsOf(PLAN_WORDS),
    without: `${PLAN_WORDS['per-load']}, as usual`,
  },
];

const ROUNDED: readonly Setting[] = TESTED.map((measure) => ({
  kind: 'figure',
  path: [measure, 'decimals'],
  label: opening(measureLabel(measure)),
  unit: 'decimals',
}));

const RANGES: readonly Setting[] = [
  {
    kind: 'rows',
    path: ['acceptance'],
    label: 'The buyer may refuse a load',
    row: 'range',
    hint: 'The limits themselves are inside. A load outside waits until the buyer chooses.',
    columns: [
      { kind: 'list', path: ['on'], label: 'By the test of', options: MEASURE_OPTIONS },
      { kind: 'figure', path: ['below'], label: 'Below', signed: true },
      { kind: 'figure', path: ['above'], label: 'Or above', signed: true },
    ],
    empty: {},
  },
];

export function TestsPart() {
  const { document } = useBuilder();
  const plan = shownText(readAt(document, ['sampling', 'plan'])) || 'per-load';
  const rounded = Object.keys((document['tests'] ?? {}) as object).length;
  const ranges: readonly unknown[] = Array.isArray(document['acceptance']) ? document['acceptance'] : [];
  return (
    <section className="builder-part" aria-labelledby="formula-tests">
      <h3 id="formula-tests">Samples, tests and ranges</h3>
      <Panel
        at={['sampling']}
        name="Sampling"
        summary={(PLAN_WORDS as Readonly<Record<string, string>>)[plan] ?? plan}
        settings={SAMPLING}
      >
        <Settings at={['sampling']} settings={SAMPLING} />
      </Panel>
      <Panel
        at={['tests']}
        name="Rounding of tests"
        summary={rounded === 0 ? 'figures are used as they are' : `${rounded} kinds of figure are rounded`}
        settings={ROUNDED}
      >
        <p className="hint">To how many decimals a figure is rounded before any use. Empty: not rounded.</p>
        <Settings at={['tests']} settings={ROUNDED} />
      </Panel>
      <Panel
        at={['acceptance']}
        name="Ranges"
        summary={
          ranges.length === 0
            ? 'the buyer takes every load'
            : ranges.map((range) => shownText(readAt(range, ['on']))).join(', ')
        }
        settings={RANGES.map((setting) => ({ ...setting, path: [] }))}
      >
        <Settings at={[]} settings={RANGES} />
      </Panel>
    </section>
  );
}
