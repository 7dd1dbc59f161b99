/**
 * Net = gross − tare in the scale's own unit, before any conversion (published-checks section 6: Handbook 44 and
 * weighmaster statutes, read; figures computed). Converting and rounding each weight first gives another net.
 */
import { describe, expect, test } from 'vitest';
import { add, compare, decimal } from '../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../src/domain/numbers/printing.ts';
import { roundToUnits } from '../../src/domain/numbers/rounding.ts';
import { toPounds } from '../../src/domain/quantities/units.ts';
import type { Term } from '../oracle/season.ts';
import { prepareProduct } from '../oracle/settle-by-product.ts';
import { smallSeason } from '../oracle/small-season.ts';

const PRICE: Term[] = [{ term: 'flat', label: 'Price', rate: '80', per: 'short-ton', weight: 'as-fed' }];

type Ticket = readonly [
  gross: string,
  tare: string,
  unit: 'lb' | 'kg' | 'short-ton' | 'tonne',
  net: string,
  pounds: string,
];
const TICKETS: readonly Ticket[] = [
  ['78220', '31100', 'lb', '47120', '47120'],
  ['35480', '14107', 'kg', '21373', '47119.399297'],
  ['39.11', '15.55', 'short-ton', '23.56', '47120'],
  ['40.02', '15.01', 'tonne', '25.01', '55137.611772'],
  ['0.3', '0.1', 'tonne', '0.2', '440.924524'],
];

describe('net weight', () => {
  test.each(TICKETS)('gross %s less tare %s %s is %s, %s lb', (gross, tare, unit, net, pounds) => {
    const season = smallSeason(PRICE);
    const { load } = prepareProduct(season).settle({ ...season.loads[0], gross, tare, unit });
    expect(compare(load.net, decimal(net))).toBe(0);
    expect(compare(add(load.net, load.tare), load.gross)).toBe(0);
    expect(compare(load.netPounds, toPounds(decimal(net), unit))).toBe(0);
    expect(printDecimal(load.netPounds)).toBe(pounds);
  });

  test('each weight in whole pounds first would lose a pound of 21,374 kg', () => {
    const wholePounds = (kilograms: string) => roundToUnits(toPounds(decimal(kilograms), 'kg'), 0, 'half-up');
    expect(wholePounds('35481') - wholePounds('14107')).toBe(47121n);
    expect(wholePounds('21374')).toBe(47122n);
    const season = smallSeason(PRICE);
    const ticket = { ...season.loads[0], gross: '35481', tare: '14107', unit: 'kg' };
    const { load } = prepareProduct(season).settle(ticket);
    expect(roundToUnits(load.netPounds, 0, 'half-up')).toBe(47122n);
  });
});
