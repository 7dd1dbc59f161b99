/**
 * Ticket series: which tickets are of a series, which numbers are missing, and which comes next.
 */
import { describe, expect, test } from 'vitest';
import { Row } from '../../../src/domain/tables/row.ts';
import {
  gapsOf,
  nextNumber,
  numberOf,
  readSeriesRow,
  type TicketSeries,
  ticketOf,
} from '../../../src/domain/tickets/series.ts';

const PLAIN: TicketSeries = { prefix: 'T', width: 0, firstNumber: 1 };
const FILLED: TicketSeries = { prefix: 'QA-', width: 6, firstNumber: 120 };

function read(cells: Readonly<Record<string, string>>) {
  const row = new Row((column) => cells[column] ?? '');
  return { series: readSeriesRow(row), columns: row.problems.map(({ column }) => column) };
}

describe('a series', () => {
  test('is read from its first ticket as it is printed', () => {
    expect(read({ prefix: 'T', first: '1' }).series).toEqual(PLAIN);
    expect(read({ prefix: 'QA-', first: '000120' }).series).toEqual(FILLED);
    expect(read({ first: '20126' }).series).toEqual({ prefix: '', width: 0, firstNumber: 20126 });
    expect(read({ first: '0' }).series).toEqual({ prefix: '', width: 1, firstNumber: 0 });
  });
  test.each([
    [{ prefix: 'T', first: '' }, ['first']],
    [{ prefix: 'T', first: '12a' }, ['first']],
    [{ prefix: 'T', first: '-1' }, ['first']],
    [{ prefix: 'T', first: '2147483648' }, ['first']],
    [{ prefix: 'T1', first: 'x' }, ['prefix', 'first']],
  ])('%o is none', (cells, columns) => {
    expect(read(cells)).toEqual({ series: undefined, columns });
  });
});

describe('a ticket', () => {
  test.each([
    [PLAIN, 'T1', 1],
    [PLAIN, 'T1000', 1000],
    [PLAIN, 'T01', undefined],
    [PLAIN, 'T0', undefined],
    [PLAIN, 't1', undefined],
    [PLAIN, 'T', undefined],
    [PLAIN, 'T1b', undefined],
    [PLAIN, 'T1234567890123', undefined],
    [FILLED, 'QA-000120', 120],
    [FILLED, 'QA-000119', undefined],
    [FILLED, 'QA-120', undefined],
    [FILLED, 'QA-1000000', 1_000_000],
  ] as const)('%o %s is number %s', (series, ticket, number) => {
    expect(numberOf(series, ticket)).toBe(number);
    if (number !== undefined) expect(ticketOf(series, number)).toBe(ticket);
  });
});

describe('numbers', () => {
  test('missing below the highest used', () => {
    expect(gapsOf(PLAIN, [])).toEqual([]);
    expect(gapsOf(PLAIN, [1, 2, 3])).toEqual([]);
    expect(gapsOf(PLAIN, [7, 3, 7, 4])).toEqual([
      { from: 1, to: 2 },
      { from: 5, to: 6 },
    ]);
    // A mistyped number of many digits is one gap, not millions of rows.
    expect(gapsOf(PLAIN, [1, 999_999_999])).toEqual([{ from: 2, to: 999_999_998 }]);
  });
  test('next', () => {
    expect(nextNumber(FILLED, [])).toBe(120);
    expect(nextNumber(FILLED, [120, 125, 121])).toBe(126);
  });
});
