/**
 * Units of weight against published figures, through a load's own conversion: exact constants, bushels in a tonne,
 * and legal pounds a bushel as an agreement's reference names them.
 */
import { describe, expect, test } from 'vitest';
import { compare, decimal, divide } from '../../src/domain/numbers/exact.ts';
import { printDecimal, printFixed } from '../../src/domain/numbers/printing.ts';
import { dryPoundsPerUnit } from '../../src/domain/prices/reference-price.ts';
import { fromPounds, toPounds, type WeightUnit } from '../../src/domain/quantities/units.ts';
import { bushels, onlyQuantity, reference } from './priced-load.ts';

const AS_IT_WEIGHS = { kind: 'shrink', percentPerPoint: '0' } as const;

describe('weights (NIST SP 811; NIST Handbook 44 appendix C; constants read, pages from memory)', () => {
  const exactly: [pounds: string, unit: WeightUnit, expected: string][] = [
    ['1', 'kg', '0.45359237'],
    ['100', 'kg', '45.359237'],
    ['100', 'cwt', '1'],
    ['2000', 'kg', '907.18474'],
    ['2000', 'short-ton', '1'],
    ['2240', 'short-ton', '1.12'],
    ['2240', 'kg', '1016.0469088'],
  ];
  test.each(exactly)('%s lb in %s is %s, exactly', (pounds, unit, expected) => {
    expect(compare(fromPounds(decimal(pounds), unit), decimal(expected))).toBe(0);
    expect(compare(toPounds(decimal(expected), unit), decimal(pounds))).toBe(0);
  });

  test('a tonne is 2204.622621849 lb', () => {
    expect(printFixed(toPounds(decimal('1'), 'tonne'), 9)).toBe('2204.622621849');
  });
});

describe('bushels in a tonne (computed; 39.368, 36.744 and 45.930 read in public tables)', () => {
  const rows: [pounds: string, bushels: string, shorter: string][] = [
    ['56', '39.368261', '39.368'],
    ['60', '36.743710', '36.744'],
    ['48', '45.929638', '45.930'],
    ['32', '68.894457', '68.894'],
  ];
  test.each(rows)('of %s lb: %s, or %s', (pounds, expected, shorter) => {
    const corn = reference('4', { pounds, moisture: '15.5' });
    const price = [bushels(AS_IT_WEIGHS)];
    const found = onlyQuantity({ references: { corn }, price, net: '1', unit: 'tonne', moisture: '15.5' });
    expect(printFixed(found, 6)).toBe(expected);
    expect(printFixed(found, 3)).toBe(shorter);
  });
});

describe('legal pounds a bushel belong to the reference, so that a law or a date can change them', () => {
  // Iowa Code 210.10 and Indiana Code 24-6-1-1, dated copies, read; the bushels are computed.
  const rows: [what: string, pounds: string, bushels: string][] = [
    ['shelled corn (Iowa)', '56', '1000'],
    ['ear corn (Iowa)', '70', '800'],
    ['unhusked ear corn (Iowa)', '75', '746.666667'],
    ['ear corn up to 1 December (Indiana)', '70', '800'],
    ['ear corn after 1 December (Indiana)', '68', '823.529412'],
  ];
  test.each(rows)('56,000 lb of %s at %s lb: %s', (_, pounds, expected) => {
    const corn = reference('4', { pounds, moisture: '15.5' });
    const price = [bushels(AS_IT_WEIGHS)];
    const found = onlyQuantity({ references: { corn }, price, net: '56000', moisture: '15.5' });
    expect(printDecimal(found)).toBe(expected);
  });
});

test('56 lb at 15.5 % hold 47.32 lb of dry matter (B. Fanning, South Dakota State Univ. Extension, reprint)', () => {
  const held = dryPoundsPerUnit(reference('4', { pounds: '56', moisture: '15.5' }));
  expect(compare(held, decimal('47.32'))).toBe(0);
  // One bushel's price over its dry matter: 4.7320 a bushel is 0.10 a pound.
  expect(printDecimal(divide(decimal('4.732'), held))).toBe('0.1');
});
