/**
 * A silo's account: what went in, was fed and is left, worked out by hand.
 */
import { describe, expect, test } from 'vitest';
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import { decimal, ratio } from '../../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../../src/domain/numbers/printing.ts';
import {
  type FedFeed,
  type LeftFeed,
  leftPounds,
  printShrink,
  type SiloContents,
  type StoredLoad,
  shrinkStanding,
  siloAccount,
} from '../../../src/domain/storage/silo-account.ts';

const day = (text: string) => `2026-${text}` as LocalDate;
const load = (ticket: string, net: string, dryMatter?: string, on = '11-20'): StoredLoad => ({
  ticket,
  deliveredOn: day(on),
  netPounds: decimal(net),
  dryMatter: dryMatter === undefined ? undefined : decimal(dryMatter),
  isSettled: true,
});
const fed = (weight: string, dryMatter: string, [from, to = from]: readonly string[]): FedFeed => ({
  from: day(from ?? ''),
  to: day(to ?? ''),
  weight: decimal(weight),
  unit: 'lb',
  dryMatter: decimal(dryMatter),
});
const weighed = (weight: string, dryMatter: string, on: string): LeftFeed => ({
  how: 'weighed',
  on: day(on),
  weight: decimal(weight),
  unit: 'lb',
  dryMatter: decimal(dryMatter),
});
function account(contents: Partial<SiloContents>) {
  const {
    delivered,
    fed: out,
    left,
    notAccounted,
    shrink,
    ...rest
  } = siloAccount({
    loads: [load('T1', '40000', '60'), load('T2', '60000', '60')],
    fed: [fed('80000', '59', ['12-01', '12-20'])],
    left: [weighed('6000', '58', '12-20')],
    ...contents,
  });
  return {
    delivered: printDecimal(delivered),
    fed: printDecimal(out),
    left: left && printDecimal(left),
    notAccounted: printDecimal(notAccounted),
    shrink: shrink && printShrink(shrink),
    ...rest,
  };
}

describe('a silo’s account', () => {
  test('is delivered less fed less left, as a share of delivered', () => {
    expect(account({})).toEqual({
      until: '2026-12-20',
      delivered: '60000',
      fed: '47200',
      left: '3480',
      notAccounted: '9320',
      shrink: '15.5',
      lacks: [],
      later: { loads: 0, fed: 0 },
    });
  });

  test('says no shrink while nothing left is measured: it is only not accounted for yet', () => {
    expect(account({ left: [] })).toMatchObject({
      until: undefined,
      left: undefined,
      notAccounted: '12800',
      shrink: undefined,
      lacks: [{ why: 'nothing-left-measured' }],
    });
  });

  test('goes below zero where more came out than went in', () => {
    const left = [weighed('30000', '58', '12-20')];
    expect(account({ left })).toMatchObject({ notAccounted: '-4600', shrink: '-7.7', lacks: [] });
    expect(shrinkStanding(ratio(-1n, 100000n), { low: '9', high: '14' })).toBe('more-out-than-in');
  });

  test('ends with the day of the newest measurement', () => {
    const contents = {
      loads: [load('T1', '100000', '60'), load('T3', '50000', '60', '12-21')],
      fed: [fed('80000', '59', ['12-01', '12-20']), fed('9000', '59', ['12-21'])],
      left: [weighed('6000', '58', '12-20'), weighed('70000', '60', '12-05')],
    };
    expect(account(contents)).toMatchObject({
      delivered: '60000',
      fed: '47200',
      shrink: '15.5',
      later: { loads: 1, fed: 1 },
    });
    // Of two on one day the one that was recorded later counts.
    const twice = [...contents.left, weighed('9000', '60', '12-20')];
    expect(account({ ...contents, left: twice })).toMatchObject({ left: '5400' });
  });

  test('is not cut through a period of feeding', () => {
    const across = fed('80000', '59', ['12-01', '12-31']);
    expect(account({ fed: [across] })).toMatchObject({
      shrink: undefined,
      lacks: [{ why: 'period-across', from: '2026-12-01', to: '2026-12-31' }],
    });
  });

  test('names loads that tell no dry matter or have not settled, and says no shrink', () => {
    const loads = [
      load('T1', '40000', '60'),
      load('T2', '60000'),
      { ...load('T3', '60000', '60'), isSettled: false },
    ];
    expect(account({ loads })).toMatchObject({
      delivered: '24000',
      shrink: undefined,
      lacks: [
        { why: 'not-settled', tickets: ['T3'] },
        { why: 'no-dry-matter', tickets: ['T2'] },
      ],
    });
    expect(account({ loads: [] })).toMatchObject({ lacks: [{ why: 'nothing-delivered' }] });
    expect(account({ loads: [load('T1', '40000', '0')], fed: [] })).toMatchObject({ shrink: undefined });
  });

  test('counts what is left by volume, density and dry matter', () => {
    const left = (inUnits: 'feet' | 'metres', volume: string, density: string): LeftFeed => ({
      how: 'measured',
      on: day('12-20'),
      volume: decimal(volume),
      density: decimal(density),
      in: inUnits,
      dryMatter: decimal('60'),
    });
    expect(printDecimal(leftPounds(left('feet', '500', '45')))).toBe('13500');
    // 720 kg a cubic metre, 10 of them, 60 %: 4,320 kg ÷ 0.45359237.
    expect(printDecimal(leftPounds(left('metres', '10', '720')), 4)).toBe('9523.9697');
  });
});

test('a shrink stands below, within or above a range whose ends belong to it', () => {
  const range = { low: '9', high: '14' };
  expect(shrinkStanding(ratio(9n, 100n), range)).toBe('within');
  expect(shrinkStanding(ratio(14n, 100n), range)).toBe('within');
  expect(shrinkStanding(ratio(1401n, 10000n), range)).toBe('above');
  expect(shrinkStanding(ratio(8n, 100n), range)).toBe('below');
});
