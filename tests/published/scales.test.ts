/**
 * Vehicle scales of class III L: how many divisions they may have, and how far they may be off.
 */
import { describe, expect, test } from 'vitest';
import { decimal } from '../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../src/domain/numbers/printing.ts';
import {
  acceptanceTolerance,
  checkDivisions,
  isWholeDivisions,
  maintenanceTolerance,
} from '../../src/domain/scales/divisions.ts';

function faults(capacity: string, division: string, unit: 'lb' | 'kg' = 'lb') {
  const figures = { capacity: decimal(capacity), division: decimal(division), unit };
  return checkDivisions({ ...figures, accuracyClass: 'III L' });
}

/** NIST Handbook 44, table 3 (read in a reprint): division at least 5 lb, 2,000 to 10,000 divisions. */
describe('capacity by division', () => {
  test.each([
    ['200000', '20'],
    ['40000', '20'],
    ['10000', '5'],
    ['120000', '20'],
  ])('%s lb by %s lb is allowed', (capacity, division) => {
    expect(faults(capacity, division)).toEqual([]);
  });
  test.each([
    ['220000', '20'],
    ['30000', '20'],
    ['39980', '20'],
    ['8000', '4'],
    ['100000', '2'],
  ])('%s lb by %s lb is not', (capacity, division) => {
    expect(faults(capacity, division)).not.toEqual([]);
  });
  test('metric scales begin at 2 kg (from memory)', () => {
    expect(faults('20000', '2', 'kg')).toEqual([]);
    expect(faults('10000', '1', 'kg')).not.toEqual([]);
  });
});

/** The maintenance tolerance of class III L, from memory; the rows are published-checks’ own arithmetic. */
describe('tolerance of a scale by 20 lb', () => {
  test.each([
    ['10000', '20'],
    ['10020', '40'],
    ['40000', '80'],
    ['60000', '120'],
    ['80000', '160'],
    // Up to the first 500 divisions it is one of them, at 20 lb as at none.
    ['0', '20'],
    ['20', '20'],
  ])('at %s lb: %s lb in use, half of it when new', (weight, tolerance) => {
    const division = decimal('20');
    expect(printDecimal(maintenanceTolerance(decimal(weight), division))).toBe(tolerance);
    expect(printDecimal(acceptanceTolerance(decimal(weight), division))).toBe(String(Number(tolerance) / 2));
  });
});

/** A net of two whole divisions is one: nothing is lost by subtracting (computed). */
describe('whole divisions', () => {
  test.each([
    ['78220', '20', true],
    ['78230', '20', false],
    ['39.11', '0.01', true],
    ['39.115', '0.01', false],
    ['0.3', '0.1', true],
    ['0', '20', true],
  ])('%s by %s: %s', (weight, division, is) => {
    expect(isWholeDivisions(decimal(weight), decimal(division))).toBe(is);
  });
});
