/**
 * What is asked about a weight by its scale, and about a load by its truck.
 */
import { describe, expect, test } from 'vitest';
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import {
  median,
  tellEmptyGross,
  tellUnlikeTruck,
  usualTruck,
} from '../../../src/domain/deliveries/usual-truck.ts';
import { decimal, whole } from '../../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../../src/domain/numbers/printing.ts';
import { doubtWeight, type Weighed } from '../../../src/domain/scales/weighing-doubts.ts';

const SCALE = {
  id: 's',
  name: 'Yard scale',
  unit: 'lb',
  capacity: decimal('100000'),
  division: decimal('20'),
  versions: [{ testedOn: '2025-09-14' as LocalDate, testDueOn: '2026-09-14' as LocalDate }],
} as const;

function doubts(weight: string, more: Partial<Weighed> = {}) {
  const on = '2026-09-14' as LocalDate;
  return doubtWeight(
    { ticket: 'T1', what: 'gross', weight: decimal(weight), unit: 'lb', on, ...more },
    SCALE,
  );
}

describe('a weight and its scale', () => {
  test.each(['78220', '78220.00', '100000', '0'])('%s is what it can show', (weight) => {
    expect(doubts(weight)).toEqual([]);
  });
  test('between two divisions, above the capacity, in another unit, or after the test was due', () => {
    expect(doubts('78225')).toEqual([
      'T1: the gross of 78225 lb is between two divisions of Yard scale, which shows steps of 20 lb.',
    ]);
    expect(doubts('100020')).toEqual([
      'T1: the gross of 100020 lb is above what Yard scale can weigh, 100000 lb.',
    ]);
    expect(doubts('35485', { unit: 'kg', what: 'tare' })).toEqual([
      'T1: the tare is in kg, and Yard scale shows lb.',
    ]);
    expect(doubts('78220', { on: '2026-09-15' as LocalDate })).toEqual([
      'T1: the test of Yard scale was due by 2026-09-14, before this gross on 2026-09-15.',
    ]);
  });
});

describe('a load and its truck', () => {
  const loads = ['30900', '31000', '31100', '31200'].map((tare) => ({
    tare: decimal(tare),
    net: decimal('47000'),
  }));
  const usual = usualTruck(loads);
  if (!usual) throw new Error('four loads are enough');
  const told = (tare: string, net: string, unit: 'lb' | 'kg' = 'lb') =>
    tellUnlikeTruck({ ticket: 'T9', truck: 'Red 4', unit, tare: decimal(tare), net: decimal(net) }, usual);

  test('the middle of an even count is the mean of two, exactly', () => {
    expect(printDecimal(usual.tare)).toBe('31050');
    expect(printDecimal(median(['1', '2'].map(decimal)))).toBe('1.5');
    expect(() => median([])).toThrow(RangeError);
  });
  test('fewer than three loads say nothing, and only the last ten count', () => {
    expect(usualTruck(loads.slice(0, 2))).toBeUndefined();
    const old = Array.from({ length: 30 }, () => ({ tare: whole(10_000), net: whole(10_000) }));
    const ten = Array.from({ length: 10 }, () => ({ tare: whole(31_000), net: whole(47_000) }));
    expect(usualTruck([...old, ...ten])).toMatchObject({ tare: { n: 62_000n }, loads: 10 });
  });
  test('like the others it is not asked about; up to 5 % of the tare and 30 % of the net', () => {
    expect(told('32602.5', '61100')).toEqual([]);
    expect(told('32603', '47000')).toHaveLength(1);
    expect(told('29498', '32900')).toEqual([]);
    expect(told('31050', '32899')).toHaveLength(1);
  });
  test('the figures are said in the unit of the ticket', () => {
    expect(told('13100', '65120')).toEqual([
      'T9: the tare is 13100 lb; Red 4 had 31050 lb in the middle of its last 4 loads.',
      'T9: the net is 65120 lb; Red 4 had 47000 lb in the middle of its last 4 loads.',
    ]);
    // 31,050 lb × 0.45359237 = 14,084.04 kg.
    expect(told('62100', '47000', 'kg')).toEqual([
      'T9: the tare is 28168 kg; Red 4 had 14084 kg in the middle of its last 4 loads.',
    ]);
  });
  test('a gross at or below the empty truck', () => {
    const gross = (pounds: string) =>
      tellEmptyGross({ ticket: 'T9', truck: 'Red 4', unit: 'lb', gross: decimal(pounds) }, usual);
    expect(gross('31050.01')).toBeUndefined();
    expect(gross('31050')).toBe(
      'T9: the gross is 31050 lb, and Red 4 weighs 31050 lb empty by its last 4 loads.',
    );
  });
});
