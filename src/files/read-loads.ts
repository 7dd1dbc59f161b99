/**
 * `loads.csv`: validated as it streams past. The loads of an ordinary season are kept; those of a larger file are read
 * anew when they are settled, so that a million of them need no room.
 */
import { stat } from 'node:fs/promises';
import type { DeliveredLoad } from '../domain/deliveries/delivered-load.ts';
import { tellUnusualLoad } from '../domain/deliveries/unusual-load.ts';
import { type LoadRules, readLoadRow } from '../domain/tables/load-row.ts';
import { Row } from '../domain/tables/row.ts';
import { LOADS } from '../domain/tables/table-shape.ts';
import type { InputProblem } from './input-problem.ts';
import { UnreadableFile } from './read-bytes.ts';
import { readCsv } from './read-csv.ts';

export interface LoadsReading {
  readonly rules: LoadRules;
  readonly report: (problem: InputProblem) => void;
  readonly warn: (warning: InputProblem) => void;
  /** Told how many loads have been read so far. */
  readonly onLoads: (count: number) => void;
  /** Files with more loads than this are read a second time. */
  readonly mostKept?: number;
}

export interface LoadsFile {
  /** The line that each ticket stands on. */
  readonly tickets: ReadonlyMap<string, number>;
  /** False where the file or some record of it could not be read, so that more tickets may stand in it. */
  readonly complete: boolean;
  /** Characters of the longest ticket. */
  readonly ticketWidth: number;
  /** The loads in file order, many at a time. Throws `UnreadableFile` where the file has changed since it was checked. */
  readonly loads: () => AsyncGenerator<readonly DeliveredLoad[]>;
}

const MOST_KEPT = 50_000;

/** Validates every row, reporting its faults; the loads are of use only where there were none. */
export async function readLoads(path: string, reading: LoadsReading): Promise<LoadsFile> {
  const { rules, report, warn, onLoads, mostKept = MOST_KEPT } = reading;
  const before = await stamp(path);
  const tickets = new Map<string, number>();
  let ticketWidth = 0;
  let kept: DeliveredLoad[] | undefined = [];
  let complete = true;
  const unusual: InputProblem[] = [];
  const unread = (problem: InputProblem) => {
    complete = false;
    report(problem);
  };
  const table = await readCsv({ path, shape: LOADS, report: unread });
  for await (const batch of table?.batches ?? []) {
    for (const { line, cell } of batch) {
      const row = new Row(cell);
      const load = readLoadRow(row, rules);
      const ticket = row.text('ticket');
      const earlier = tickets.get(ticket);
      if (earlier !== undefined) {
        row.fault('ticket', `must be its own; ${ticket} stands on line ${earlier} already`);
      } else if (ticket !== '') {
        tickets.set(ticket, line);
      }
      for (const problem of row.problems) report({ file: LOADS.file, line, ...problem });
      ticketWidth = Math.max(ticketWidth, ticket.length);
      if (load) kept?.push(load);
      const message = load && tellUnusualLoad(load);
      if (message !== undefined) unusual.push({ file: LOADS.file, line, message });
    }
    if (tickets.size > mostKept) kept = undefined;
    onLoads(tickets.size);
  }
  if (complete && tickets.size === 0) warn({ file: LOADS.file, message: 'names no load yet' });
  warnOfUnusual(unusual, warn);
  const loads = kept ? keptLoads(kept) : () => readAgain(path, { rules, before });
  return { tickets, complete, ticketWidth, loads };
}

/** As many are named as a person will look at; the rest are counted. */
const MOST_NAMED = 5;

function warnOfUnusual(loads: readonly InputProblem[], warn: LoadsReading['warn']): void {
  for (const warning of loads.slice(0, MOST_NAMED)) warn(warning);
  if (loads.length > MOST_NAMED) {
    warn({ file: LOADS.file, message: `${loads.length - MOST_NAMED} more loads weigh as little or as much` });
  }
}

/** Settled this many at a time, so that output begins before all is settled. */
const BATCH = 1_000;

function keptLoads(loads: readonly DeliveredLoad[]): LoadsFile['loads'] {
  return async function* () {
    for (let start = 0; start < loads.length; start += BATCH) yield loads.slice(start, start + BATCH);
  };
}

async function* readAgain(
  path: string,
  { rules, before }: { readonly rules: LoadRules; readonly before: string },
): AsyncGenerator<readonly DeliveredLoad[]> {
  if ((await stamp(path)) !== before) throw changed();
  const table = await readCsv({
    path,
    shape: LOADS,
    report: () => {
      throw changed();
    },
  });
  for await (const batch of table?.batches ?? []) {
    yield batch.map(({ cell }) => {
      const load = readLoadRow(new Row(cell), rules);
      if (!load) throw changed();
      return load;
    });
  }
}

async function stamp(path: string): Promise<string> {
  return stat(path).then(
    ({ size, mtimeMs }) => `${size} ${mtimeMs}`,
    () => 'absent',
  );
}

function changed(): UnreadableFile {
  return new UnreadableFile({ file: LOADS.file, message: 'has changed while it was being read; run again' });
}
