/**
 * Files of other programs: what is proposed for their columns, and how their cells become ours. The headers are invented
 * (common practice, no source).
 */
import { describe, expect, test } from 'vitest';
import { zoneCalendar } from '../../../src/domain/dates/instant.ts';
import { type ColumnMatch, checkMatch } from '../../../src/domain/tables/column-match.ts';
import { proposeMatch } from '../../../src/domain/tables/match-columns.ts';
import { matchedRows } from '../../../src/domain/tables/matched-rows.ts';

const calendar = zoneCalendar('America/Boise');

function read(match: ColumnMatch, header: readonly string[], rows: readonly (readonly string[])[]) {
  return matchedRows({
    match,
    header,
    rows: rows.map((cells, index) => ({ line: index + 2, cells })),
    calendar,
  });
}

describe('what is proposed', () => {
  test('by names: a scale house', () => {
    const header = ['Tkt #', 'Date', 'Time', 'Truck ID', 'Gross (lb)', 'Tare (lb)', 'Net (lb)', 'Remarks'];
    const rows = [
      ['1001', '9/14/2026', '9:40 PM', '12', '78,220', '31,100', '47,120', ''],
      ['1002', '9/15/2026', '6:05 AM', '7', '76,000', '30,000', '46,000', 'wet'],
    ];
    const proposed = proposeMatch({ kind: 'tickets', header, rows });
    expect(proposed).toEqual({
      columns: {
        ticket: { column: 0 },
        delivered_at: { column: 1 },
        delivered_time: { column: 2 },
        truck: { column: 3 },
        gross: { column: 4 },
        tare: { column: 5 },
        net: { column: 6 },
        unit: { constant: 'lb' },
      },
      dateOrder: 'month-first',
      decimalMark: '.',
    });
    const match = {
      kind: 'tickets',
      timeOffset: 'agreement',
      ...proposed,
      dateOrder: 'month-first',
    } as const;
    expect(checkMatch(match, header.length)).toEqual([]);
    expect(read(match, header, rows)[0]).toEqual({
      line: 2,
      texts: {
        ticket: '1001',
        delivered_at: '2026-09-14T21:40:00-06:00',
        truck: '12',
        gross: '78220',
        tare: '31100',
        unit: 'lb',
      },
      unread: [],
      problems: [],
    });
  });

  test('by cells: names that say nothing', () => {
    const header = ['A', 'B', 'C', 'D', 'E', 'F'];
    const rows = [
      ['X1', '2026-09-14 21:40', '35.480,5', '14.100', '21.380,5', 'kg'],
      ['X2', '2026-09-15 08:00', '34.000', '14.000,25', '19.999,75', 'kg'],
    ];
    const proposed = proposeMatch({ kind: 'tickets', header, rows });
    expect(proposed).toEqual({
      columns: {
        delivered_at: { column: 1 },
        gross: { column: 2 },
        tare: { column: 3 },
        net: { column: 4 },
        unit: { column: 5 },
      },
      dateOrder: 'year-first',
      decimalMark: ',',
    });
  });

  test('a laboratory that reports moisture, and parts of dry matter', () => {
    const header = ['Sample ID', 'Moisture %', 'Starch, % DM', 'aNDF % DM', 'NH3-N', 'Lab', 'Reported'];
    const rows = [['S1', '40.8', '54', '31.34', '1.2', 'Fennel Ridge', '14.09.2026']];
    const proposed = proposeMatch({ kind: 'results', header, rows });
    expect(proposed.columns).toMatchObject({
      sample: { column: 0 },
      moisture: { column: 1 },
      starch: { column: 2 },
      ndf: { column: 3 },
      laboratory: { column: 5 },
      reported_on: { column: 6 },
      basis: { constant: 'dry-matter' },
    });
    expect(proposed.columns).not.toHaveProperty('dry_matter');
    expect(proposed.dateOrder).toBe('day-first');
    const match = { kind: 'results', timeOffset: 'agreement', ...proposed, dateOrder: 'day-first' } as const;
    expect(read(match, header, rows)[0]?.texts).toMatchObject({
      dry_matter: '59.2',
      reported_on: '2026-09-14',
      basis: 'dry-matter',
    });
  });

  test('dates that could be of either order are left open', () => {
    const rows = [['elevator', '9/8/2026', '4.20']];
    const header = ['Market', 'Date', 'Bid'];
    expect(proposeMatch({ kind: 'quotes', header, rows }).dateOrder).toBeUndefined();
  });
});

describe('a match', () => {
  const whole: ColumnMatch = {
    kind: 'quotes',
    columns: { series: { constant: 'corn' }, date: { column: 0 }, price: { column: 1 } },
    dateOrder: 'year-first',
    decimalMark: '.',
    timeOffset: 'agreement',
  };

  test('must name what is needed, each column once', () => {
    expect(checkMatch(whole, 2)).toEqual([]);
    const columns = { date: { column: 0 }, price: { column: 0 }, truck: { column: 5 } };
    expect(checkMatch({ ...whole, columns }, 2).map(({ wanted }) => wanted)).toEqual([
      'price',
      'truck',
      'series',
    ]);
    expect(checkMatch({ ...whole, columns: { ...whole.columns, price: { constant: '4' } } }, 2)).toHaveLength(
      1,
    );
    expect(checkMatch(whole, 1).map(({ wanted }) => wanted)).toEqual(['price']);
  });

  test('faults have the line, and the name that the file gives the column', () => {
    const header = ['When', 'Bid'];
    const rows = [
      ['2026-09-14', '4.20'],
      ['9/14/2026', '4.30'],
      ['2026-02-30', '4.30'],
      ['2026-09-14', '4.40'],
      ['2026-09-16'],
    ];
    expect(
      read(whole, header, rows).flatMap(({ line, problems }) => problems.map((p) => [line, p.column])),
    ).toEqual([
      [3, 'When'],
      [4, 'When'],
      [5, 'Which price and When'],
      [6, undefined],
    ]);
  });
});

describe('times', () => {
  const header = ['n', 't', 'g', 'e'];
  const match = (timeOffset: string): ColumnMatch => ({
    kind: 'tickets',
    columns: {
      ticket: { column: 0 },
      delivered_at: { column: 1 },
      gross: { column: 2 },
      tare: { column: 3 },
      unit: { constant: 'tons' },
    },
    dateOrder: 'day-first',
    decimalMark: '.',
    timeOffset,
  });
  const at = (cell: string, timeOffset = 'agreement') => {
    const [row] = read(match(timeOffset), header, [['1', cell, '30', '10']]);
    return row?.texts['delivered_at'] ?? row?.problems.find(({ column }) => column === 't')?.message;
  };

  test('take their offset from the cell, the match, or the clock of the zone', () => {
    expect(at('14/09/2026 21:40')).toBe('2026-09-14T21:40:00-06:00');
    expect(at('14/12/2026 21:40')).toBe('2026-12-14T21:40:00-07:00');
    expect(at('14/09/2026 21:40', '+02:00')).toBe('2026-09-14T21:40:00+02:00');
    expect(at('2026-09-14T21:40:00Z', '+02:00')).toBe('2026-09-14T21:40:00Z');
    expect(at('14/09/2026 12:05 am')).toBe('2026-09-14T00:05:00-06:00');
  });

  test('are refused where the clock showed them twice or never', () => {
    // Clocks in the zone go back on 2026-11-01 at 2:00 and forward on 2026-03-08 at 2:00.
    expect(at('01/11/2026 01:30')).toContain('-06:00 or -07:00');
    expect(at('01/11/2026 01:30 -07:00')).toBe('2026-11-01T01:30:00-07:00');
    expect(at('08/03/2026 02:30')).toContain('left out');
    expect(at('14/09/2026')).toContain('time of day');
  });

  test('a bare ton is asked about', () => {
    const [row] = read(match('agreement'), header, [['1', '14/09/2026 21:40', '30', '10']]);
    expect(row?.problems).toHaveLength(1);
    expect(row?.problems[0]?.message).toContain('2,000 lb');
  });
});

test('a decimal comma is never mixed with a point, and a net weight must come out', () => {
  const match: ColumnMatch = {
    kind: 'tickets',
    columns: {
      ticket: { column: 0 },
      delivered_at: { column: 1 },
      gross: { column: 2 },
      tare: { column: 3 },
      net: { column: 4 },
      unit: { constant: 'kg' },
    },
    dateOrder: 'year-first',
    decimalMark: ',',
    timeOffset: '+02:00',
  };
  const header = ['Nr', 'Zeit', 'Brutto', 'Tara', 'Netto'];
  const rows = [
    ['1', '2026-09-14 21:40', '35.480,5', '14100', '21380,5'],
    ['2', '2026-09-14 21:50', '35480.5', '14100', '21380,5'],
    ['3', '2026-09-14 21:55', '35480', '14100', '21308'],
  ];
  const [good, mixed, swapped] = read(match, header, rows);
  expect(good?.texts).toMatchObject({ gross: '35480.5', tare: '14100' });
  expect(good?.problems).toEqual([]);
  expect(mixed?.problems.map(({ column }) => column)).toEqual(['Brutto']);
  expect(swapped?.problems).toEqual([
    { column: 'Netto', message: 'must be gross less tare, 21380; found "21308"' },
  ]);
});
