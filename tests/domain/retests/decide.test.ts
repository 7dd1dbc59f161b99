/**
 * The plain methods by their boundaries, and what holds for every method.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compare, decimal } from '../../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../../src/domain/numbers/printing.ts';
import { decidedFigure, rule } from '../../../src/domain/retests/decide.ts';
import { asDecided, type RetestFigure, type Tester } from '../../../src/domain/retests/figures.ts';
import type { LaboratoryMethod } from '../../../src/domain/retests/ruling.ts';

const figure = (from: Tester, tenths: number): RetestFigure => ({
  from,
  value: decimal((tenths / 10).toFixed(1)),
  decimals: 1,
});

function ruled(
  method: LaboratoryMethod,
  first: number,
  later: readonly (readonly [Tester, number])[],
): string {
  const ruling = rule(method, {
    first: figure('laboratory', first),
    later: later.map(([from, tenths]) => figure(from, tenths)),
  });
  if (ruling.kind === 'needs') return ruling.tests.map(({ by, results }) => `${by} ${results}`).join(', ');
  return `${printDecimal(ruling.value)} ${ruling.because}`;
}

describe('referee-stands', () => {
  const method = { method: 'referee-stands', tolerance: '1.0' } as const;
  test.each([
    [[], 'referee 1'],
    [[['referee', 550]], '54 first-stands'],
    [[['referee', 551]], '55.1 referee-moved-it'],
    [[['referee', 530]], '54 first-stands'],
    [[['referee', 529]], '52.9 referee-moved-it'],
  ] as const)('%o: %s', (later, expected) => {
    expect(ruled(method, 540, later)).toBe(expected);
  });
});

describe('of three figures', () => {
  test.each([
    ['closest-two', 552, 544, '54.2 mean-of-nearer-pair'],
    ['closest-two', 550, 545, '54.5 median'],
    ['closest-two', 540, 560, '54 mean-of-nearer-pair'],
    ['median', 552, 544, '54.4 median'],
    ['median', 530, 560, '54 median'],
  ] as const)('%s of 54.0, %i and %i tenths: %s', (method, again, referee, expected) => {
    const later = [
      ['laboratory', again],
      ['referee', referee],
    ] as const;
    expect(ruled({ method }, 540, later)).toBe(expected);
    // Whoever reports first changes nothing.
    expect(ruled({ method }, 540, later.toReversed())).toBe(expected);
  });

  test('nothing is decided before all three are in', () => {
    expect(ruled({ method: 'median' }, 540, [['referee', 550]])).toBe('laboratory 1');
    expect(ruled({ method: 'closest-two' }, 540, [])).toBe('laboratory 1, referee 1');
  });
});

const limit = fc.integer({ min: 1, max: 40 }).map((tenths) => (tenths / 10).toFixed(1));
const methods: fc.Arbitrary<LaboratoryMethod> = fc.oneof(
  fc.record({ method: fc.constant('referee-stands' as const), tolerance: limit }),
  fc.constant({ method: 'closest-two' as const }),
  fc.constant({ method: 'median' as const }),
  fc
    .record({
      r: limit,
      more: fc.integer({ min: 0, max: 30 }),
      test: fc.constantFrom('cheap', 'dear'),
      between: fc.boolean(),
    })
    .map(({ r, more, test: dear, between }) => ({
      method: 'iso-5725' as const,
      repeatability: r,
      test: dear as 'cheap' | 'dear',
      ...(between ? { reproducibility: (Number(r) + more / 10).toFixed(1) } : {}),
    })),
  fc.record({
    method: fc.constant('astm-d3244' as const),
    reproducibility: limit,
    tie: fc.constantFrom(
      'median' as const,
      'mean' as const,
      'first-stands' as const,
      'referee-stands' as const,
    ),
  }),
);
const tenths = fc.integer({ min: 400, max: 480 });

test('every method decides in the end, within the range of the figures that entered it', () => {
  fc.assert(
    fc.property(
      methods,
      tenths,
      fc.array(tenths, { minLength: 12, maxLength: 12 }),
      (method, first, drawn) => {
        const question = { first: figure('laboratory', first), later: [] as RetestFigure[] };
        let next = 0;
        for (let step = 0; step < 6; step++) {
          const ruling = rule(method, question);
          if (ruling.kind === 'decided') {
            const values = [question.first, ...question.later].map(({ value }) => value);
            const decided = decidedFigure(ruling, 'half-up');
            const all = values.toSorted(compare);
            // Rounding to the figures' own decimals cannot leave their range.
            expect(compare(decided, all[0] ?? decided)).toBeGreaterThanOrEqual(0);
            expect(compare(decided, all.at(-1) ?? decided)).toBeLessThanOrEqual(0);
            expect(
              ruling.from.every((used) => used === question.first || question.later.includes(used)),
            ).toBe(true);
            return;
          }
          expect(ruling.tests.length).toBeGreaterThan(0);
          for (const { by, results } of ruling.tests) {
            for (let count = 0; count < results; count++)
              question.later.push(figure(by, drawn[next++] ?? first));
          }
        }
        throw new Error('Nothing was decided');
      },
    ),
  );
});

test('a decided figure has the decimals of the most precise one', () => {
  const figures = [figure('referee', 701), { ...figure('buyer', 702), decimals: 3 }];
  expect(printDecimal(asDecided(decimal('70.12345'), figures, 'half-up'))).toBe('70.123');
});
