/**
 * Rows of CSV as text. Every new file goes through `safeCsvRow`, so that no cell is run as a formula by a spreadsheet.
 */
import { parseDecimal } from '../domain/numbers/exact.ts';

/** RFC 4180: quotes where a cell holds a comma, quote or line break, CRLF at the end. */
export function csvRow(cells: readonly string[]): string {
  return `${cells.map((cell) => (/[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join(',')}\r\n`;
}

/** A row for people and programs alike: `csvRow` with each cell made safe by `safeCell`. */
export function safeCsvRow(cells: readonly string[]): string {
  return csvRow(cells.map(safeCell));
}

/**
 * Text that a spreadsheet would take for a formula gets an apostrophe before it, which it shows as text: "=A1" is
 * "'=A1". A plain number stays one: "-71.83".
 */
export function safeCell(text: string): string {
  return /^[=+\-@\t\r]/.test(text) && parseDecimal(text) === undefined ? `'${text}` : text;
}
