/**
 * A scale's description as a form gives it: every fault at once, at its column.
 */
import { describe, expect, test } from 'vitest';
import { readScaleRow } from '../../../src/domain/scales/scale-row.ts';
import { Row } from '../../../src/domain/tables/row.ts';

const GOOD = {
  name: 'Yard scale',
  place: 'North gate, Quillback Acres',
  unit: 'lb',
  capacity: '200000',
  division: '20',
  accuracy_class: 'III L',
  legal_for_trade: 'yes',
  tested_on: '2026-03-02',
  test_due_on: '2027-03-02',
  certificate: 'C-118',
};

function read(changes: Partial<Record<keyof typeof GOOD, string>>) {
  const cells: Readonly<Record<string, string>> = { ...GOOD, ...changes };
  const row = new Row((column) => cells[column] ?? '');
  const scale = readScaleRow(row);
  return { scale, faults: row.problems.map(({ column, message }) => `${column} ${message}`) };
}

describe('a scale', () => {
  test('that is whole', () => {
    const { scale, faults } = read({});
    expect(faults).toEqual([]);
    expect(scale).toMatchObject({ name: 'Yard scale', accuracyClass: 'III L', isLegalForTrade: true });
  });

  test('that nobody tested has no dates', () => {
    const { scale } = read({ tested_on: '', test_due_on: '', certificate: '' });
    expect(scale).toMatchObject({ testedOn: undefined, testDueOn: undefined, certificate: undefined });
  });

  test('gets all its faults at once', () => {
    const { scale, faults } = read({
      name: '',
      unit: 'stone',
      capacity: '0',
      division: '-5',
      legal_for_trade: 'maybe',
      tested_on: '2026-02-30',
    });
    expect(scale).toBeUndefined();
    expect(faults.map((fault) => fault.split(' ')[0])).toEqual([
      'name',
      'unit',
      'capacity',
      'division',
      'legal_for_trade',
      'tested_on',
    ]);
  });

  test.each([
    [{ division: '250000' }, 'division must be at most the capacity'],
    [{ division: '30' }, 'division must go into the capacity a whole number of times; it goes 6666.67 times'],
    [
      { capacity: '30000' },
      'division must make 2,000 to 10,000 divisions of the capacity on a scale of class III L; it makes 1500',
    ],
    [
      { capacity: '20000', division: '2' },
      'division must be at least 5 lb on a scale of class III L; it is 2 lb',
    ],
    [
      { accuracy_class: 'not marked' },
      'accuracy_class must be the one on the scale’s plate, since it is legal for trade',
    ],
    [{ tested_on: '' }, 'tested_on must be given beside the day the next test is due; it is empty'],
    [
      { test_due_on: '2026-03-02' },
      'test_due_on must be after the last test on 2026-03-02; found 2026-03-02',
    ],
  ])('%o', (changes, fault) => {
    expect(read(changes).faults).toEqual([fault]);
  });

  test('for a farm’s own use may have any whole number of divisions', () => {
    const own = { accuracy_class: 'not marked', legal_for_trade: 'no', capacity: '30000', division: '20' };
    expect(read(own).faults).toEqual([]);
  });
});
