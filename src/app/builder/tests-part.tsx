/**
 * Samples and tests: how loads are sampled, how test figures are rounded, and which loads the buyer may refuse.
 */
'use client';

import { useBuilder } from './builder-context.tsx';
import { Panel } from './builder-panel.tsx';
import { readAt, shownText } from './document-path.ts';
import { PLAN_WORDS } from './format-words.ts';
import { Settings } from './setting-view.tsx';
import { measureWord } from './term-summary.ts';
import { RANGES, ROUNDED_TESTS, SAMPLING } from './test-settings.ts';

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
        settings={ROUNDED_TESTS}
      >
        <p className="hint">To how many decimals a figure is rounded before any use. Empty: not rounded.</p>
        <Settings at={['tests']} settings={ROUNDED_TESTS} />
      </Panel>
      <Panel
        at={['acceptance']}
        name="Ranges"
        summary={
          ranges.length === 0
            ? 'the buyer takes every load'
            : `refusals by ${ranges.map((range) => measureWord(readAt(range, ['on']))).join(', ')}`
        }
        settings={[RANGES]}
      >
        <Settings at={['acceptance']} settings={[RANGES]} />
      </Panel>
    </section>
  );
}
