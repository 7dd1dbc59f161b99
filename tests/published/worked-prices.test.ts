/**
 * Worked prices of grain and ear corn, each as an agreement that the product settles: the exact figure, and the one
 * that the publisher printed where a rate was rounded on the way. The second is what rounding early does.
 */
import { describe, expect, test } from 'vitest';
import { printDecimal } from '../../src/domain/numbers/printing.ts';
import type { Term } from '../oracle/season.ts';
import { bushels, dryMatterAs, type PublishedLoad, pay, reference } from './priced-load.ts';

const AS_IT_WEIGHS = { kind: 'shrink', percentPerPoint: '0' } as const;

/** A ton: 2,000 lb. */
const TON = { net: '2000' } as const;

function flat(rate: string, per: 'load' | 'lb' | 'short-ton', weight?: 'as-fed' | 'dry-matter'): Term {
  return { term: 'flat', label: 'Flat', rate, per, ...(weight ? { weight } : {}) };
}

describe('high-moisture shelled corn: $3.50 a bushel at 15 %, a ton at 30 % (W. Rusche, SDSU Extension 2020, read)', () => {
  test('exact 102.941176, paid 102.94', () => {
    const corn = reference('3.50', { pounds: '56', moisture: '15' });
    const paid = pay({ ...TON, references: { corn }, price: [dryMatterAs('corn')], moisture: '30' });
    expect(printDecimal(paid.exact)).toBe('102.941176');
    expect(paid.total).toBe('102.94');
  });

  test('102.90 as printed, when a pound of dry matter is first rounded to 0.0735', () => {
    expect(pay({ ...TON, price: [flat('0.0735', 'lb', 'dry-matter')], moisture: '30' }).total).toBe('102.90');
  });
});

describe('ear corn by energy: corn $4.50, a ton as is (R. Rasby, Univ. of Nebraska 2010, read)', () => {
  const rows: [share: string, exact: string, paid: string, why: string][] = [
    ['90', '144.642857', '144.64', 'the share is a constant of the contract'],
    ['90.9090909091', '146.103896', '146.10', '80/88, computed: another contract'],
    ['100', '160.714286', '160.71', 'computed: no share taken'],
  ];
  test.each(rows)('share %s percent: %s, paid %s (%s)', (sharePercent, exact, paid) => {
    const corn = reference('4.50', { pounds: '56', moisture: '15.5' });
    const price = [bushels(AS_IT_WEIGHS, { sharePercent })];
    const found = pay({ ...TON, references: { corn }, price, moisture: '35' });
    expect(printDecimal(found.exact)).toBe(exact);
    expect(found.total).toBe(paid);
  });
});

describe('wet discount: 56,000 lb at 20.5 %, base 15 %, $3.50, 2 % a point (Iowa State Extension 2019, reprint)', () => {
  const corn = reference('3.50', { pounds: '56', moisture: '15' });
  const wet: Pick<PublishedLoad, 'net' | 'moisture'> = { net: '56000', moisture: '20.5' };
  const discount: Term = {
    term: 'schedule',
    label: 'Wet discount',
    on: 'moisture',
    neutral: { from: '0', to: '15' },
    above: [{ perPoint: '-2' }],
    count: 'exact',
    unit: 'percent',
  };

  test('3,115.00 as a percent of the price', () => {
    const paid = pay({ ...wet, references: { corn }, price: [bushels(AS_IT_WEIGHS), discount] });
    expect(printDecimal(paid.exact)).toBe('3115');
    expect(paid.total).toBe('3115.00');
  });

  test('3,115.00 as 2 % of the weight', () => {
    const price = [bushels({ kind: 'shrink', percentPerPoint: '2' })];
    expect(pay({ ...wet, references: { corn }, price }).total).toBe('3115.00');
  });

  test('3,110 as printed, when the discount is first rounded to 0.39 a bushel', () => {
    const discounted = { ...corn, basis: '-0.39' };
    const price = [bushels(AS_IT_WEIGHS)];
    expect(pay({ ...wet, references: { corn: discounted }, price }).total).toBe('3110.00');
  });

  test('counted in whole points: 3,150 for completed ones, 3,080 for started ones (computed)', () => {
    const by = (count: 'completed' | 'started') =>
      pay({ ...wet, references: { corn }, price: [bushels(AS_IT_WEIGHS), { ...discount, count }] }).total;
    expect(by('completed')).toBe('3150.00');
    expect(by('started')).toBe('3080.00');
  });
});

describe('field to bunk ("Pricing Silage", Nebraska Extension, read)', () => {
  const corn = reference('5.00', { pounds: '56', moisture: '15.5' });
  // A ton of silage is priced as 7.65 bushels of corn, which weigh 428.4 lb.
  const grain = { net: '428.4', moisture: '15.5', references: { corn } };
  const rows: [step: string, added: Term[], paid: string][] = [
    ['5.00 × 7.65', [], '38.25'],
    ['+ 13.50', [flat('13.50', 'load')], '51.75'],
    ['+ 3.00', [flat('13.50', 'load'), flat('3.00', 'load')], '54.75'],
  ];
  test.each(rows)('%s', (_, added, paid) => {
    expect(pay({ ...grain, price: [bushels({ kind: 'dry-matter' }), ...added] }).total).toBe(paid);
  });

  test('÷ 0.90 = 60.83: of a ton put up, 1,800 lb are fed; × 1.10 would be 60.23, which is wrong', () => {
    const fed = reference('54.75', { pounds: '1800', moisture: '65' });
    const price = [bushels(AS_IT_WEIGHS)];
    const paid = pay({ ...TON, references: { corn: fed }, price, moisture: '65' });
    expect(printDecimal(paid.exact)).toBe('60.833333');
    expect(paid.total).toBe('60.83');
    const wrong = reference('54.75', { pounds: '2000', moisture: '65' });
    const sharePercent = '110';
    const risen = [bushels(AS_IT_WEIGHS, { sharePercent })];
    expect(pay({ ...TON, references: { corn: wrong }, price: risen, moisture: '65' }).total).toBe('60.23');
  });
});
