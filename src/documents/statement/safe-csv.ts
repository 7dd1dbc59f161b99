/**
 * Rows of CSV (RFC 4180) that a spreadsheet opens without running anything: figures stay figures, and a text that
 * could be taken for a formula is marked as text.
 */

/** A figure is a decimal string, kept as it is so that "-71.83" stays a number; all else is text. */
export type SafeCell = string | { readonly figure: string };

const FIGURE = /^-?\d+(\.\d+)?$/;
/** What spreadsheets begin a formula with; the wide forms too, which some of them take for the same (from memory). */
const FORMULA = /^[=+\-@\t\r\n＝＋－＠]/;
const NEEDS_QUOTES = /[",\r\n]/;

function safeText(text: string): string {
  return FORMULA.test(text) ? `'${text}` : text;
}

function cellText(cell: SafeCell): string {
  if (typeof cell === 'string') return safeText(cell);
  // A figure passes unmarked, so nothing else may pass for one.
  if (!FIGURE.test(cell.figure)) throw new RangeError(`Not a figure: ${JSON.stringify(cell.figure)}`);
  return cell.figure;
}

/** One record with its CRLF. Throws RangeError on a figure that is no decimal. */
export function safeCsvRow(cells: readonly SafeCell[]): string {
  const texts = cells.map(cellText);
  return `${texts.map((text) => (NEEDS_QUOTES.test(text) ? `"${text.replaceAll('"', '""')}"` : text)).join(',')}\r\n`;
}
