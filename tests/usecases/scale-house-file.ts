/**
 * Files as an invented scale-house program and an invented laboratory write them, with faults planted where a test
 * wants them.
 */
import type { ColumnMatch } from '../../src/domain/tables/column-match.ts';

export const SCALE_HEADER = ['Tkt #', 'Date', 'Time', 'Rig', 'Gross (lb)', 'Tare (lb)', 'Net (lb)', 'Bag'];
export const LAB_HEADER = ['Bag', 'Moisture %', 'Starch % DM', 'aNDF % DM', 'ADF % DM', 'Reported'];

export const SCALE_MATCH: ColumnMatch = {
  kind: 'tickets',
  columns: {
    ticket: { column: 0 },
    delivered_at: { column: 1 },
    delivered_time: { column: 2 },
    truck: { column: 3 },
    gross: { column: 4 },
    tare: { column: 5 },
    net: { column: 6 },
    sample: { column: 7 },
    unit: { constant: 'lb' },
  },
  dateOrder: 'month-first',
  decimalMark: '.',
  timeOffset: 'agreement',
};
export const LAB_MATCH: ColumnMatch = {
  kind: 'results',
  columns: {
    sample: { column: 0 },
    moisture: { column: 1 },
    starch: { column: 2 },
    ndf: { column: 3 },
    adf: { column: 4 },
    reported_on: { column: 5 },
    basis: { constant: 'dry-matter' },
  },
  dateOrder: 'month-first',
  decimalMark: '.',
  timeOffset: 'agreement',
};

const grouped = (figure: number) => String(figure).replace(/\B(?=(\d{3})+$)/g, ',');

/** Three weeks of trucks, day and night. */
export function scaleRows(count: number): string[][] {
  return Array.from({ length: count }, (_, index) => {
    const day = 1 + Math.floor((index * 21) / count);
    const hour = index % 24;
    const clock = `${hour % 12 === 0 ? 12 : hour % 12}:${String((index * 7) % 60).padStart(2, '0')} ${hour < 12 ? 'AM' : 'PM'}`;
    const [gross, tare] = [76_000 + ((index * 37) % 220) * 20, 30_600 + ((index * 11) % 60) * 20];
    return [
      String(10_001 + index),
      `9/${day}/2026`,
      clock,
      String(1 + (index % 14)),
      grouped(gross),
      grouped(tare),
      grouped(gross - tare),
      `B${1 + Math.floor((index * 600) / count)}`,
    ];
  });
}

export function labRows(count: number): string[][] {
  return Array.from({ length: count }, (_, index) => {
    const [moisture, starch, ndf] = [38 + (index % 50) / 10, 52 + (index % 40) / 10, 22 + (index % 30) / 10];
    return [
      `B${index + 1}`,
      moisture.toFixed(1),
      starch.toFixed(1),
      ndf.toFixed(1),
      (ndf / 2).toFixed(2),
      '9/24/2026',
    ];
  });
}

/** A fault: in which row (from 0) and column, and what stands there instead. */
export interface Planted {
  readonly row: number;
  readonly column: string;
  readonly cell: string;
}

/** The rows with their faults. */
export function planted(
  header: readonly string[],
  rows: readonly (readonly string[])[],
  faults: readonly Planted[],
): string[][] {
  const bad = rows.map((row) => [...row]);
  for (const { row, column, cell } of faults) {
    const cells = bad[row];
    const at = header.indexOf(column);
    if (!cells || at < 0) throw new Error(`There is no place for the fault at ${row}, ${column}`);
    cells[at] = cell;
  }
  return bad;
}

export function csv(header: readonly string[], rows: readonly (readonly string[])[]): Uint8Array {
  const lines = [header, ...rows].map((cells) =>
    cells.map((cell) => (/[",]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join(','),
  );
  return new TextEncoder().encode(`\ufeff${lines.join('\r\n')}\r\n`);
}
