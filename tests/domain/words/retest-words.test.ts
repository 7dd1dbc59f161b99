/**
 * Questions and retests in words: for each method who tests what again, and which figure then counts.
 */
import { describe, expect, test } from 'vitest';
import type { RetestRules } from '../../../src/domain/agreement/retest-rules.ts';
import { retestInWords } from '../../../src/domain/words/retest-words.ts';

const PARTIES = { seller: 'Quillback Acres', buyer: 'Tarn Hollow Dairy' };
const BASE: RetestRules = {
  askWithinDays: '7',
  keptDays: '30',
  parts: ['laboratory', 'referee'],
  referee: 'Bell Reach Referees',
  fee: 'split',
  measures: { starch: { method: 'median' } },
};

function said(part: Partial<RetestRules>): string {
  return retestInWords({ ...BASE, ...part }, PARTIES).join('\n');
}

test('who may ask, what is kept, who the referee is and who pays', () => {
  expect(said({})).toContain('within 7 days after it was reported');
  expect(said({ askWithinDays: '1' })).toContain('within 1 day after');
  expect(said({})).toContain('(one for the laboratory and one for the referee), and kept for 30 days');
  expect(said({ parts: ['seller', 'buyer'] })).toContain(
    'one for Quillback Acres and one for Tarn Hollow Dairy',
  );
  expect(said({})).toContain('The referee is Bell Reach Referees.');
  expect(said({})).toContain('Each side pays half of what the retest costs.');
  expect(said({ fee: 'asker-unless-moved' })).toContain('Whoever asks pays for the retest, unless');
  expect(said({ fee: 'further-from-referee' })).toContain('further from the referee’s pays for the retest');
});

describe('each method', () => {
  const methods: [name: keyof RetestRules['measures'], RetestRules['measures'], sentences: string[]][] = [
    [
      'dry-matter',
      { 'dry-matter': { method: 'referee-stands', tolerance: '0.5' } },
      [
        'Dry matter (% as-fed): The referee tests its part.',
        'differs from the first by more than 0.5, the referee’s figure counts; otherwise the first stands.',
      ],
    ],
    [
      'starch',
      { starch: { method: 'closest-two' } },
      [
        'Starch (% of dry matter): The laboratory tests its part again and the referee tests its own',
        'The mean of the two that lie nearest to each other counts',
      ],
    ],
    ['ndf', { ndf: { method: 'median' } }, ['NDF (% of dry matter):', 'The middle one counts.']],
    [
      'ash',
      { ash: { method: 'iso-5725', repeatability: '1.4', test: 'cheap' } },
      [
        'as in ISO 5725-6, with 1.4 as what two tests of one laboratory may differ by (r)',
        'differ by no more than r, their mean counts.',
        'twice more, since the test is cheap: if the four figures lie within r × 3.6 ÷ 2.8',
      ],
    ],
    [
      'ash',
      { ash: { method: 'iso-5725', repeatability: '1.4', reproducibility: '2.8', test: 'dear' } },
      [
        'once more, since the test is dear: if the three figures lie within r × 3.3 ÷ 2.8',
        'with 2.8 as what two laboratories may differ by (R)',
        'no more than √(R² − r² × (1 − 1 ÷ (2 × n) − 1 ÷ (2 × m)))',
      ],
    ],
    [
      'ph',
      { ph: { method: 'astm-d3244', reproducibility: '0.2', tie: 'mean' } },
      [
        'pH: This is decided as in ASTM D3244, with 0.2 as what two laboratories may differ by (R).',
        'both are dropped and each side has its part tested again',
        'lie within 1.2 × R, the mean of the three counts',
        'If both pairs are equally near, the mean of all three counts.',
      ],
    ],
    [
      'weight',
      { weight: { method: 'second-scale', toleranceDivisions: '2' } },
      ['Net weight: The truck is weighed on a second scale', 'by more than 2 divisions of the coarser scale'],
    ],
    [
      'weight',
      { weight: { method: 'second-scale' } },
      ['by more than the tolerances of the two scales together, the second counts'],
    ],
  ];
  test.each(methods)('for %s', (_, measures, sentences) => {
    for (const sentence of sentences) expect(said({ measures })).toContain(sentence);
  });
});

test('figures come in one order, whatever the order of the file', () => {
  const starch = { method: 'median' } as const;
  const weight = { method: 'second-scale' } as const;
  expect(said({ measures: { weight, starch } })).toBe(said({ measures: { starch, weight } }));
});
