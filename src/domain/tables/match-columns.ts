/**
 * Proposes how a file of any program is to be read: by the names in its header, and by what its cells look like. The
 * person who brings the file corrects it; what cannot be known is left open and asked.
 */
import { compare, isZero, parseDecimal, subtract } from '../numbers/exact.ts';
import {
  type DateOrder,
  type DecimalMark,
  looksLikeClock,
  looksLikeDate,
  readBasis,
  readMoney,
  readNumber,
  readPercent,
  readUnit,
} from './cell-texts.ts';
import type { ColumnSource } from './column-match.ts';
import { type CellKind, type TableKind, WANTED, type WantedColumn } from './wanted-columns.ts';

export interface MatchProposal {
  readonly columns: Readonly<Record<string, ColumnSource>>;
  /** Undefined where the dates could be of more than one order, or there are none. */
  readonly dateOrder: DateOrder | undefined;
  readonly decimalMark: DecimalMark;
}

export interface FileHead {
  readonly kind: TableKind;
  readonly header: readonly string[];
  /** Rows to look at; a few hundred tell enough. */
  readonly rows: readonly (readonly string[])[];
}

/** A column whose cells fit at least so often is taken for what it looks like: some cells of a file are faulty. */
const MOSTLY = 0.8;

/**
 * "Tkt #,Date,Time,Gross (lb),Tare (lb)" is matched with ticket, day, time of day, gross and tare, and the unit is lb
 * for all rows.
 */
export function proposeMatch({ kind, header, rows }: FileHead): MatchProposal {
  const cells = header.map((_, index) => rows.map((row) => row[index] ?? '').filter((cell) => cell !== ''));
  const decimalMark = guessDecimalMark(cells.flat());
  const byName = matchNames(WANTED[kind], { header, cells, decimalMark });
  const columns = new Map([...byName].map(([name, column]): [string, ColumnSource] => [name, { column }]));
  const rest = { kind, header, rows, cells, decimalMark, columns };
  if (kind === 'tickets') matchWeights(rest);
  matchOnlyLikely(rest);
  for (const [name, constant] of constantsIn(rest)) {
    if (!columns.has(name)) columns.set(name, { constant });
  }
  if (columns.has('dry_matter')) columns.delete('moisture');
  return { columns: Object.fromEntries(columns), dateOrder: guessDateOrder(cells.flat()), decimalMark };
}

/** Words of a header without signs and units: "Gross Wt. (lb)" is "gross wt". */
export function plainName(name: string): string {
  return name
    .toLowerCase()
    .replace(/\(([^)]*)\)/g, ' $1 ')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .replace(/\b(lbs?|kgs?|pct|percent|dm basis|as fed|as received)\b/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/(?<=\S) dm$/, '');
}

interface Cells {
  readonly header: readonly string[];
  readonly cells: readonly (readonly string[])[];
  readonly decimalMark: DecimalMark;
}

/** The best pairs first, each column and each wanted one once. */
function matchNames(
  wantedColumns: readonly WantedColumn[],
  { header, cells, decimalMark }: Cells,
): ReadonlyMap<string, number> {
  const pairs = wantedColumns.flatMap((wanted) =>
    header.flatMap((name, column) => {
      const score = scoreOf(wanted, name);
      return score > 0 && fits(wanted.cells, cells[column] ?? [], decimalMark)
        ? [{ wanted, column, score }]
        : [];
    }),
  );
  const matched = new Map<string, number>();
  const taken = new Set<number>();
  // Sorting is stable: of equals the first wanted, and its first column.
  for (const { wanted, column } of pairs.toSorted((a, b) => b.score - a.score)) {
    if (matched.has(wanted.name) || taken.has(column)) continue;
    matched.set(wanted.name, column);
    taken.add(column);
  }
  return matched;
}

/** 100 for a name by heart, less for one that holds it among other words; 0 where nothing is alike. */
function scoreOf({ names }: WantedColumn, header: string): number {
  const plain = plainName(header);
  const words = plain.split(' ');
  return Math.max(
    0,
    ...names.map((name) => {
      if (plain === name) return 100;
      const own = name.split(' ');
      return own.every((word) => words.includes(word)) ? (50 * own.length) / words.length : 0;
    }),
  );
}

function fits(kind: CellKind, cells: readonly string[], mark: DecimalMark): boolean {
  if (cells.length === 0 || kind === 'text') return true;
  const test = TESTS[kind];
  return cells.filter((cell) => test(cell, mark)).length >= cells.length * MOSTLY;
}

const TESTS: Readonly<Record<Exclude<CellKind, 'text'>, (cell: string, mark: DecimalMark) => boolean>> = {
  amount: (cell, mark) => isNumber(readNumber(cell, mark)),
  money: (cell, mark) => isNumber(readMoney(cell, mark)),
  percent: (cell, mark) => isNumber(readPercent(cell, mark)),
  time: looksLikeDate,
  date: looksLikeDate,
  clock: looksLikeClock,
  unit: (cell) => 'text' in readUnit(cell) || /^tons?$/i.test(cell),
  basis: (cell) => 'text' in readBasis(cell),
};

function isNumber(read: ReturnType<typeof readNumber>): boolean {
  return 'text' in read && parseDecimal(read.text) !== undefined;
}

interface Matching extends FileHead {
  readonly cells: readonly (readonly string[])[];
  readonly decimalMark: DecimalMark;
  readonly columns: Map<string, ColumnSource>;
}

function freeColumns({ header, columns }: Matching): number[] {
  const taken = [...columns.values()].flatMap((from) => ('column' in from ? [from.column] : []));
  return header.map((_, index) => index).filter((index) => !taken.includes(index));
}

/** Three columns of which one is always the first less the second are gross, tare and net, whatever they are called. */
function matchWeights(matching: Matching): void {
  const { rows, cells, decimalMark, columns } = matching;
  if (columns.has('gross') && columns.has('tare')) return;
  const free = freeColumns(matching).filter((column) => fits('amount', cells[column] ?? [], decimalMark));
  const numbers = new Map(
    free.map((column) => [column, rows.map((row) => numberOf(row[column] ?? '', decimalMark))]),
  );
  const isDifference = (gross: number, tare: number, net: number) => {
    const held = rows.filter((_, index) => {
      const [a, b, c] = [gross, tare, net].map((column) => numbers.get(column)?.[index]);
      return a && b && c && !isZero(c) && compare(b, c) < 0 && compare(subtract(a, b), c) === 0;
    });
    return rows.length > 0 && held.length >= rows.length * MOSTLY;
  };
  for (const gross of free) {
    for (const tare of free) {
      const net = free.find(
        (column) => column !== gross && column !== tare && isDifference(gross, tare, column),
      );
      if (gross === tare || net === undefined) continue;
      columns.set('gross', { column: gross }).set('tare', { column: tare }).set('net', { column: net });
      return;
    }
  }
}

function numberOf(cell: string, mark: DecimalMark) {
  const read = readNumber(cell, mark);
  return 'text' in read ? parseDecimal(read.text) : undefined;
}

/** What is still wanted and looks like one free column alone: dates, times of day, units, bases. */
function matchOnlyLikely(matching: Matching): void {
  const { kind, cells, decimalMark, columns } = matching;
  for (const { name, cells: looks, isRequired } of WANTED[kind]) {
    if (columns.has(name) || ['text', 'amount', 'money', 'percent'].includes(looks)) continue;
    if (!isRequired && looks !== 'clock') continue;
    const likely = freeColumns(matching).filter(
      (column) => (cells[column]?.length ?? 0) > 0 && fits(looks, cells[column] ?? [], decimalMark),
    );
    if (likely.length === 1 && likely[0] !== undefined) columns.set(name, { column: likely[0] });
  }
  const time = columns.get('delivered_at');
  const isWhole = time && 'column' in time && cells[time.column]?.every((cell) => /\d[T\s]+\d/.test(cell));
  if (isWhole) columns.delete('delivered_time');
}

/** What headers say for all rows: "Gross (lb)" that weights are in lb, "Starch % DM" the basis. */
function constantsIn({ kind, header, columns }: Matching): [string, string][] {
  const of = (names: readonly string[]) =>
    names.flatMap((name) => {
      const from = columns.get(name);
      return from && 'column' in from ? [(header[from.column] ?? '').toLowerCase()] : [];
    });
  if (kind === 'tickets') {
    const said = of(['gross', 'tare']).map((name) =>
      /\blbs?\b/.test(name) ? 'lb' : /\bkgs?\b/.test(name) ? 'kg' : '',
    );
    return said.length > 0 && said[0] !== '' && said.every((unit) => unit === said[0])
      ? [['unit', said[0] ?? '']]
      : [];
  }
  if (kind === 'results') {
    const parts = of(['starch', 'ndf', 'adf', 'crude_protein', 'crude_fat', 'ash']);
    if (parts.length === 0) return [];
    if (parts.every((name) => /\b(dm|dry)\b/.test(name))) return [['basis', 'dry-matter']];
    if (parts.every((name) => /as[ -](fed|received)/.test(name))) return [['basis', 'as-fed']];
  }
  return [];
}

/** A comma with one, two or more than three digits behind it, or behind a thousands point, is a decimal comma. */
function guessDecimalMark(cells: readonly string[]): DecimalMark {
  const commas = cells.filter((cell) =>
    /^-?\d+,(\d{1,2}|\d{4,})\s*%?$|^-?\d{1,3}(\.\d{3})+,\d+$/.test(cell),
  ).length;
  const points = cells.filter((cell) =>
    /^-?\d+\.(\d{1,2}|\d{4,})\s*%?$|^-?\d{1,3}(,\d{3})+\.\d+$/.test(cell),
  ).length;
  return commas > points ? ',' : '.';
}

/** Known where every date begins with its year, or one has a part that no month can be. */
function guessDateOrder(cells: readonly string[]): DateOrder | undefined {
  const dates = cells.filter(looksLikeDate).map((cell) => (cell.split(/[T\s]/)[0] ?? '').split(/[-/.]/));
  if (dates.length === 0) return undefined;
  const late = (part: number) =>
    dates.filter((parts) => Number(parts[part]) > 12 && parts[0]?.length !== 4).length;
  const yearFirst = dates.filter((parts) => parts[0]?.length === 4).length;
  if (yearFirst >= dates.length * MOSTLY) return 'year-first';
  if (late(0) > late(1)) return 'day-first';
  return late(1) > 0 ? 'month-first' : undefined;
}
