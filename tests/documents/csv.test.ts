/**
 * Rows of CSV: quoting by RFC 4180, read back by csv-parse, and cells that a spreadsheet would run as a formula.
 */
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { safeCell, safeCsvRow } from '../../src/documents/csv.ts';

test.each([
  ['=A1+1', "'=A1+1"],
  ['+1 555', "'+1 555"],
  ['-T1', "'-T1"],
  ['@SUM(A1)', "'@SUM(A1)"],
  ['\t=A1', "'\t=A1"],
  ['\r=A1', "'\r=A1"],
  ['-1+2', "'-1+2"],
  ['-71.83', "'-71.83"],
  ['12.50', '12.50'],
  ['Red = 4', 'Red = 4'],
  ['', ''],
])('%j becomes %j', (text, expected) => {
  expect(safeCell(text)).toBe(expected);
});

test('any cells are read back as they were, but for the apostrophe, and none can be a formula', () => {
  fc.assert(
    fc.property(fc.array(fc.string({ unit: 'grapheme' }), { minLength: 2 }), (cells) => {
      const [read = []] = parse(safeCsvRow(cells), { record_delimiter: '\r\n', relax_column_count: true });
      expect(
        read.map((cell: string, index: number) => (cell === cells[index] ? cell : cell.slice(1))),
      ).toEqual(cells);
      for (const cell of read) expect(cell).not.toMatch(/^[=+@\t\r]|^-(?!\d+(\.\d+)?$)/);
    }),
  );
});
