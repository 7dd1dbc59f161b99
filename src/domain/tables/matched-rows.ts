/**
 * A file's rows as the texts that our tables take, by a match. Every cell that cannot be turned is named with its row
 * and the column as the person's own file calls it.
 */
import type { ZoneCalendar } from '../dates/instant.ts';
import { offsetsAt } from '../dates/wall-clock-offsets.ts';
import { compare, HUNDRED, MAX_DECIMAL_LENGTH, parseDecimal, subtract } from '../numbers/exact.ts';
import { printDecimal } from '../numbers/printing.ts';
import {
  type CellText,
  readBasis,
  readClock,
  readDate,
  readMoney,
  readNumber,
  readPercent,
  readUnit,
  splitTime,
} from './cell-texts.ts';
import { type ColumnMatch, labelOf } from './column-match.ts';
import { found, type RowProblem } from './table-shape.ts';
import { type CellKind, OWN_KINDS, type TableKind, WANTED } from './wanted-columns.ts';

/** A record of the file. */
export interface SourceRow {
  /** The line on which it starts. */
  readonly line: number;
  readonly cells: readonly string[];
}

export interface MatchedRow {
  readonly line: number;
  /** By the columns of our tables. */
  readonly texts: Readonly<Record<string, string>>;
  /** Columns of ours that have no text because the file's cell is at fault. */
  readonly unread: readonly string[];
  /** With the file's own column names. */
  readonly problems: readonly RowProblem[];
}

export interface FileToMatch {
  readonly match: ColumnMatch;
  readonly header: readonly string[];
  readonly rows: readonly SourceRow[];
  /** The clock of the agreement. */
  readonly calendar: ZoneCalendar;
}

/** What the columns of a row are together: these make it one and the same record. */
export const ROW_KEYS: Readonly<Record<TableKind, readonly string[]>> = {
  tickets: ['ticket'],
  results: ['sample'],
  quotes: ['series', 'date'],
  // What stands twice in somebody's books is for matching to say.
  'own-loads': [],
  'own-payments': [],
};

/** All rows, with their faults; a row that repeats an earlier one's key is a fault of its own. */
export function matchedRows({ match, header, rows, calendar }: FileToMatch): readonly MatchedRow[] {
  const seen = new Map<string, number>();
  const nameOf = (wanted: string) => ownName(match, header, wanted);
  return rows.map(({ line, cells }) => {
    const row = matchRow(cells, { match, calendar, nameOf });
    if (cells.length !== header.length) {
      row.problems.push({ message: `has ${cells.length} cells; the header has ${header.length} columns` });
    }
    const keys = ROW_KEYS[match.kind].map((name) => row.texts[name] ?? '');
    const key = JSON.stringify(keys);
    const earlier = seen.get(key);
    const isWhole = keys.length > 0 && keys.every((text) => text !== '');
    if (isWhole && earlier !== undefined) {
      const columns = ROW_KEYS[match.kind].map(nameOf).join(' and ');
      row.problems.push({ column: columns, message: `stands in line ${earlier} already` });
    } else if (isWhole) seen.set(key, line);
    return { line, ...row };
  });
}

/** What the file calls a column that is wanted; for a text of all rows, what it is. */
export function ownName(match: ColumnMatch, header: readonly string[], wanted: string): string {
  const from = match.columns[wanted] ?? (wanted === 'dry_matter' ? match.columns['moisture'] : undefined);
  if (from && 'column' in from) return header[from.column] || `column ${from.column + 1}`;
  return labelOf(match.kind, wanted);
}

interface Reading {
  readonly match: ColumnMatch;
  readonly calendar: ZoneCalendar;
  readonly nameOf: (wanted: string) => string;
}

function matchRow(cells: readonly string[], { match, calendar, nameOf }: Reading) {
  const problems: RowProblem[] = [];
  const unread: string[] = [];
  const texts: Record<string, string> = {};
  const raw = (name: string) => {
    const from = match.columns[name];
    if (!from) return '';
    return ('constant' in from ? from.constant : (cells[from.column] ?? '')).trim();
  };
  const fault = (name: string, message: string, unreadName = name) => {
    unread.push(unreadName);
    problems.push({ column: nameOf(name), message });
  };
  const take = (name: string, read: CellText) => {
    if ('text' in read) texts[name] = read.text;
    else fault(name, read.wrong);
  };
  for (const { name, cells: kind } of WANTED[match.kind]) {
    const cell = raw(name);
    if (cell === '' || kind === 'time' || kind === 'clock') continue;
    const isOwnDay = kind === 'date' && OWN_KINDS.some((own) => own === match.kind);
    take(name, readCell(isOwnDay ? splitTime(cell).date : cell, kind, match));
  }
  if (match.kind === 'tickets' && raw('delivered_at') !== '') {
    const hasOwnClock = match.columns['delivered_time'] !== undefined;
    const time = readTime(raw('delivered_at'), hasOwnClock ? raw('delivered_time') : undefined, {
      match,
      calendar,
    });
    const isOfClock =
      hasOwnClock && 'wrong' in time && !('wrong' in readDate(raw('delivered_at'), match.dateOrder));
    if (isOfClock) fault('delivered_time', time.wrong, 'delivered_at');
    else take('delivered_at', time);
  }
  if (match.kind === 'tickets') checkNet(texts, (message) => fault('net', message));
  takeMoisture(match.kind, texts, (message) => fault('moisture', message, 'dry_matter'));
  return { texts, unread, problems };
}

function readCell(cell: string, kind: CellKind, { dateOrder, decimalMark }: ColumnMatch): CellText {
  switch (kind) {
    case 'amount':
      return readNumber(cell, decimalMark);
    case 'money':
      return readMoney(cell, decimalMark);
    case 'percent':
      return readPercent(cell, decimalMark);
    case 'date':
      return readDate(cell, dateOrder);
    case 'unit':
      return readUnit(cell);
    case 'basis':
      return readBasis(cell);
    case 'text':
    case 'time':
    case 'clock':
      return { text: cell };
  }
}

/** A moment as `2026-09-14T21:40:00-06:00`. The offset is the cell's own, the match's, or that of the zone's clock. */
function readTime(
  cell: string,
  clockCell: string | undefined,
  { match, calendar }: Pick<Reading, 'match' | 'calendar'>,
): CellText {
  const parts = splitTime(cell);
  const date = readDate(parts.date, match.dateOrder);
  if ('wrong' in date) return date;
  const own = clockCell === undefined ? parts : { ...parts, ...clockOf(clockCell) };
  if (own.clock === '') return { wrong: `must hold a time of day; ${found(clockCell ?? cell)}` };
  const clock = readClock(own.clock);
  if ('wrong' in clock) return clock;
  const wallClock = `${date.text}T${clock.text}`;
  const offset = own.offset || (match.timeOffset === 'agreement' ? '' : match.timeOffset);
  if (offset !== '') return { text: `${wallClock}${offset}` };
  const offsets = offsetsAt(wallClock.slice(0, 16), calendar);
  if (offsets.length === 1) return { text: `${wallClock}${offsets[0]}` };
  return offsets.length === 0
    ? { wrong: `is in the hour that clocks left out that night; ${found(cell)}` }
    : {
        wrong: `is in the hour that came twice that night; write ${offsets.join(' or ')} behind the time; ${found(cell)}`,
      };
}

function clockOf(cell: string): { readonly clock: string; readonly offset: string } {
  const { clock, offset } = splitTime(`- ${cell}`);
  return { clock, offset };
}

/** A net weight is never taken: it must be what gross and tare come to. */
function checkNet(texts: Record<string, string>, fault: (message: string) => void): void {
  const { net, gross, tare } = texts;
  if (net === undefined) return;
  delete texts['net'];
  const [n, g, t] = [net, gross ?? '', tare ?? ''].map(parseDecimal);
  if (!n) {
    fault(`must be a number, like 47120; ${found(net)}`);
  } else if (g && t && t.n >= 0n && compare(g, t) > 0 && compare(subtract(g, t), n) !== 0) {
    fault(`must be gross less tare, ${printDecimal(subtract(g, t), MAX_DECIMAL_LENGTH)}; ${found(net)}`);
  }
}

/** Dry matter is 100 less moisture, exactly. */
function takeMoisture(
  kind: TableKind,
  texts: Record<string, string>,
  fault: (message: string) => void,
): void {
  const { moisture } = texts;
  if (kind !== 'results' || moisture === undefined) return;
  delete texts['moisture'];
  const value = parseDecimal(moisture);
  if (!value || compare(value, HUNDRED) >= 0 || value.n < 0n) {
    fault(`must be a percentage from 0 to below 100, like 40.8; ${found(moisture)}`);
    return;
  }
  texts['dry_matter'] = printDecimal(subtract(HUNDRED, value), MAX_DECIMAL_LENGTH);
}
