/**
 * Water shrink: the identity final = initial × (100 − M1) ÷ (100 − M2), its printed factors, and pencil shrink.
 * Each row is a load settled by `equivalent-bushels`; where a publisher cut a factor, both figures are held.
 */
import { describe, expect, test } from 'vitest';
import {
  decimal,
  divide,
  type Exact,
  floor,
  HUNDRED,
  multiply,
  subtract,
} from '../../src/domain/numbers/exact.ts';
import { printDecimal, printFixed, printUnits } from '../../src/domain/numbers/printing.ts';
import type { BushelMethod } from '../oracle/season.ts';
import { bushels, onlyQuantity, reference } from './priced-load.ts';

const DRY_MATTER = { kind: 'dry-matter' } as const;

interface Wet {
  readonly net: string;
  readonly from: string;
  readonly to: string;
  readonly bushelDecimals?: string;
}

function bushelsOf({ net, from, to, bushelDecimals }: Wet, method: BushelMethod = DRY_MATTER): Exact {
  const corn = reference('4', { pounds: '56', moisture: to });
  const price = [bushels(method, bushelDecimals === undefined ? {} : { bushelDecimals })];
  return onlyQuantity({ references: { corn }, price, net, moisture: from });
}

function poundsOf(wet: Wet): Exact {
  return multiply(bushelsOf(wet), decimal('56'));
}

/** Percent of the wet weight that is lost. */
function shrinkOf(wet: Omit<Wet, 'net'>, method?: BushelMethod): Exact {
  const kept = divide(multiply(bushelsOf({ net: '1000', ...wet }, method), decimal('56')), decimal('1000'));
  return subtract(HUNDRED, multiply(kept, HUNDRED));
}

/** Digits past `places` dropped, as several publishers do. */
function cut(value: Exact, places: number): string {
  return printUnits(floor(multiply(value, decimal(`1${'0'.repeat(places)}`))), places);
}

test('25 to 15.5 % loses 11.242604 %, printed 11.24 (D. Karki, SDSU Extension, read)', () => {
  const shrink = shrinkOf({ from: '25', to: '15.5' });
  expect(printFixed(shrink, 6)).toBe('11.242604');
  expect(printFixed(shrink, 2)).toBe('11.24');
});

describe('factor a point, 100 ÷ (100 − base) (K. Dillivan, SDSU Extension 2014; Natl Corn Handbook NCH-61; read)', () => {
  const rows: [base: string, onePointAbove: string, factor: string, printed?: string][] = [
    ['16', '17', '1.1905', '1.190'],
    ['15.5', '16.5', '1.1834', '1.183'],
    ['15', '16', '1.1765', '1.176'],
    ['14', '15', '1.1628', '1.162'],
    ['13', '14', '1.1494'],
    ['12', '13', '1.1364', '1.136'],
  ];
  test.each(rows)('base %s, load at %s: %s, printed %s (cut)', (to, from, factor, printed = undefined) => {
    const shrink = shrinkOf({ from, to });
    expect(printFixed(shrink, 4)).toBe(factor);
    if (printed !== undefined) expect(cut(shrink, 3)).toBe(printed);
  });
});

test('25 to 15.5 % by the printed factor: 11.2385, printed 11.23 (cut); exact 11.2426 (Dillivan, read)', () => {
  const byFactor = shrinkOf({ from: '25', to: '15.5' }, { kind: 'shrink', percentPerPoint: '1.183' });
  expect(printDecimal(byFactor)).toBe('11.2385');
  expect(cut(byFactor, 2)).toBe('11.23');
  expect(printFixed(shrinkOf({ from: '25', to: '15.5' }), 4)).toBe('11.2426');
});

test('100,000 lb, 20 to 15 % (R. L. Nielsen, Purdue Agronomy 2020, reprint)', () => {
  const wet = { net: '100000', from: '20', to: '15' };
  expect(printFixed(poundsOf(wet), 3)).toBe('94117.647');
  expect(printFixed(poundsOf(wet), 0)).toBe('94118');
  expect(printFixed(bushelsOf(wet), 3)).toBe('1680.672');
  expect(printDecimal(bushelsOf({ ...wet, bushelDecimals: '0' }))).toBe('1681');
});

test('1,000 wet bushels, 26 to 15 %: 870.588, printed 870.6 (Purdue guide, reprint)', () => {
  const wet = { net: '56000', from: '26', to: '15' };
  expect(printFixed(bushelsOf(wet), 3)).toBe('870.588');
  expect(printDecimal(bushelsOf({ ...wet, bushelDecimals: '1' }))).toBe('870.6');
});

test('pencil shrink: 216 wet bushels at 25 %, 1.4 % a point to 15 %: 185.76, printed 186 (FEFO 09-16, Univ. of Illinois farmdoc 2009, read)', () => {
  const wet = { net: '12096', from: '25', to: '15' };
  const method = { kind: 'shrink', percentPerPoint: '1.4' } as const;
  expect(printDecimal(bushelsOf(wet, method))).toBe('185.76');
  expect(printDecimal(bushelsOf({ ...wet, bushelDecimals: '0' }, method))).toBe('186');
  // Water alone would leave more: 216 × 75 ÷ 85 (computed).
  expect(printFixed(bushelsOf(wet), 3)).toBe('190.588');
});
