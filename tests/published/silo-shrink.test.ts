/**
 * Published losses of dry matter in silos. The ranges are Holmes and Muck's table (US Dairy Forage Research Center), read in
 * a reprint of July 2015 that works each range's middle out, and what it costs of 1,000 tons; single figures are of Muck,
 * Brink and Broderick, Applied Engineering in Agriculture 31 (2015), abstract read.
 */
import { describe, expect, test } from 'vitest';
import type { LocalDate } from '../../src/domain/dates/local-date.ts';
import { decimal, divide, HUNDRED, multiply, subtract, whole } from '../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../src/domain/numbers/printing.ts';
import { publishedShrink } from '../../src/domain/storage/published-shrink.ts';
import { printShrink, siloAccount } from '../../src/domain/storage/silo-account.ts';
import type { SiloKind } from '../../src/domain/storage/silo-kind.ts';

const MIDDLES: readonly (readonly [SiloKind, string, string, string])[] = [
  ['bunker', 'Covered bunkers', '23.5', '9400'],
  ['pile', 'Covered piles', '25.5', '10200'],
  ['bag', 'Bags', '11.5', '4600'],
];

describe('the middle of a published range', () => {
  test.each(MIDDLES)('%s: %s lose %s %%, which of 1,000 tons at 40 is %s', (kind, of, middle, cost) => {
    const range = publishedShrink(kind).find((one) => one.of === of);
    const [low, high] = [decimal(range?.low ?? ''), decimal(range?.high ?? '')];
    expect(printDecimal(divide({ n: low.n + high.n, d: 1n }, whole(2)))).toBe(middle);
    const on = '2026-11-20' as LocalDate;
    const lost = divide(multiply(decimal(middle), whole(1000)), HUNDRED);
    const { shrink, notAccounted } = siloAccount({
      loads: [
        { ticket: 'T1', deliveredOn: on, netPounds: whole(2_000_000), dryMatter: HUNDRED, isSettled: true },
      ],
      fed: [{ from: on, to: on, weight: subtract(whole(1000), lost), unit: 'short-ton', dryMatter: HUNDRED }],
      left: [{ how: 'weighed', on, weight: whole(0), unit: 'lb', dryMatter: HUNDRED }],
    });
    expect(shrink && printShrink(shrink)).toBe(middle);
    expect(printDecimal(multiply(divide(notAccounted, whole(2000)), whole(40)))).toBe(cost);
  });
});

test('single figures: bag 11 %, bunker 17 %, a tower that keeps air out 4 %', () => {
  const single = (kind: SiloKind) =>
    publishedShrink(kind)
      .filter(({ low, high }) => low === high)
      .map(({ low }) => low);
  expect([single('bag'), single('bunker'), single('tower'), single('pile')]).toEqual([
    ['11'],
    ['17'],
    ['4'],
    [],
  ]);
});

test('every published figure names its source', () => {
  for (const kind of ['bag', 'bunker', 'pile', 'tower'] as const) {
    for (const { source } of publishedShrink(kind)) expect(source).toMatch(/University|Center|Applied/);
  }
});
