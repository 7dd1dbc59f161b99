/**
 * Rows of CSV as text. Every new file goes through `safeCsvRow`, so that a spreadsheet opens it without running anything:
 * figures stay figures, and a text that could be taken for a formula is marked as text.
 */

/** A figure is a decimal string, kept as it is so that "-71.83" stays a number; all else is text. */
export type SafeCell = string | { readonly figure: string };

const FIGURE = /^-?\d+(\.\d+)?$/;
/** What spreadsheets begin a formula with; the wide forms too, which some of them take for the same (from memory). */
const FORMULA = /^[=+\-@\t\r\n＝＋－＠]/;

/** RFC 4180: quotes where a cell holds a comma, quote or line break, CRLF at the end. */
export function csvRow(cells: readonly string[]): string {
  return `${cells.map((cell) => (/[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join(',')}\r\n`;
}

/** A row for people and programs alike. Throws RangeError on a figure that is no decimal. */
export function safeCsvRow(cells: readonly SafeCell[]): string {
  return csvRow(cells.map((cell) => (typeof cell === 'string' ? safeCell(cell) : figureText(cell.figure))));
}

/** A whole table: its header row, then its rows. */
export function safeCsvTable(columns: readonly string[], rows: readonly (readonly SafeCell[])[]): string {
  return [safeCsvRow(columns), ...rows.map(safeCsvRow)].join('');
}

/** A figure where the text is one plainly; else the text. */
export function figureCell(text: string): SafeCell {
  return FIGURE.test(text) ? { figure: text } : text;
}

/** Text that a spreadsheet would take for a formula gets an apostrophe before it: "=A1" is "'=A1". */
export function safeCell(text: string): string {
  return FORMULA.test(text) ? `'${text}` : text;
}

function figureText(figure: string): string {
  // A figure passes unmarked, so nothing else may pass for one.
  if (!FIGURE.test(figure)) throw new RangeError(`Not a figure: ${JSON.stringify(figure)}`);
  return figure;
}
