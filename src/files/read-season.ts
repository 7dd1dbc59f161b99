/**
 * A season's folder: `agreement.json`, `loads.csv` and, where they are there, `samples.csv`, `prices.csv`,
 * `elections.csv` and `choices.csv`. Everything is validated before anything is settled; loads are validated as they
 * stream past and read again to be settled, so that a million of them need no room.
 */
import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { AgreementParts } from '../domain/agreement/check-agreement.ts';
import type { Agreement } from '../domain/agreement/document.ts';
import { zoneCalendar } from '../domain/dates/instant.ts';
import type { DeliveredLoad } from '../domain/deliveries/delivered-load.ts';
import { needsDistance } from '../domain/settlement/prepare-term.ts';
import type { Evidence } from '../domain/settlement/settle-load.ts';
import { type LoadRules, readLoadRow } from '../domain/tables/load-row.ts';
import { Row } from '../domain/tables/row.ts';
import { LOADS } from '../domain/tables/table-shape.ts';
import type { InputProblem } from './input-problem.ts';
import { readAgreement } from './read-agreement.ts';
import { UnreadableFile } from './read-bytes.ts';
import { readCsv } from './read-csv.ts';
import { readEvidence, type TicketedRow } from './read-evidence.ts';

const FILES = ['agreement.json', 'loads.csv', 'samples.csv', 'prices.csv', 'elections.csv', 'choices.csv'];

export interface Season {
  readonly agreement: Agreement;
  /** The agreement as it was written. */
  readonly document: unknown;
  readonly evidence: Evidence;
  readonly loadCount: number;
  /** Characters of the longest ticket. */
  readonly ticketWidth: number;
  /** The loads in file order, read anew at each call. Throws `UnreadableFile` where the file has changed since. */
  readonly loads: () => AsyncGenerator<DeliveredLoad>;
}

export interface OpenedSeason {
  /** Undefined where there are problems. */
  readonly season: Season | undefined;
  readonly problems: readonly InputProblem[];
  /** Things to look at that stop nothing. */
  readonly warnings: readonly InputProblem[];
}

/** Reads and validates a whole folder. `onLoads` is told how many loads have been read so far. */
export async function openSeason(
  folder: string,
  onLoads: (count: number) => void = () => {},
): Promise<OpenedSeason> {
  const problems: InputProblem[] = [];
  const warnings: InputProblem[] = [];
  const report = (problem: InputProblem) => problems.push(problem);
  const warn = (warning: InputProblem) => warnings.push(warning);

  const names = await readdir(folder).catch(() => undefined);
  if (!names) {
    report({
      file: folder,
      message: 'is not a folder that can be read; name the folder that holds agreement.json',
    });
    return { season: undefined, problems, warnings };
  }
  for (const name of names) {
    if (name.toLowerCase().endsWith('.csv') && !FILES.includes(name)) {
      warn({ file: name, message: `is not read; the files of a season are ${FILES.join(', ')}` });
    }
  }
  const { agreement, document, parts } = await readAgreement(
    join(folder, 'agreement.json'),
    'agreement.json',
    report,
  );
  const { evidence, ticketed } = await readEvidence({ folder, names, parts, report, warn });
  const rules = loadRules(parts);
  const path = join(folder, LOADS.file);
  const before = await stamp(path);
  const { tickets, ticketWidth } = await checkLoads(path, { rules, report, onLoads });
  checkTickets(ticketed, tickets, report);
  if (!agreement || problems.length > 0) return { season: undefined, problems, warnings };

  const loads = async function* (): AsyncGenerator<DeliveredLoad> {
    if ((await stamp(path)) !== before) throw changed();
    const table = await readCsv(path, LOADS, () => {
      throw changed();
    });
    for await (const { cell } of table?.rows ?? []) {
      const load = readLoadRow(new Row(cell), rules);
      if (!load) throw changed();
      yield load;
    }
  };
  const season = { agreement, document, evidence, loadCount: tickets.size, ticketWidth, loads };
  return { season, problems, warnings };
}

function loadRules({ timeZone, price }: AgreementParts): LoadRules {
  return { calendar: zoneCalendar(timeZone ?? 'UTC'), distanceNeeded: price.some(needsDistance) };
}

interface LoadsCheck {
  readonly rules: LoadRules;
  readonly report: (problem: InputProblem) => void;
  readonly onLoads: (count: number) => void;
}

/** Validates every load; gives each ticket that was read, with its line. */
async function checkLoads(path: string, { rules, report, onLoads }: LoadsCheck) {
  const tickets = new Map<string, number>();
  let ticketWidth = 0;
  let count = 0;
  const table = await readCsv(path, LOADS, report);
  for await (const { line, cell } of table?.rows ?? []) {
    const row = new Row(cell);
    readLoadRow(row, rules);
    const ticket = row.text('ticket');
    const earlier = tickets.get(ticket);
    if (earlier !== undefined)
      row.fault('ticket', `must be its own; ${ticket} stands on line ${earlier} already`);
    else if (ticket !== '') tickets.set(ticket, line);
    for (const problem of row.problems) report({ file: LOADS.file, line, ...problem });
    ticketWidth = Math.max(ticketWidth, ticket.length);
    if (++count % 10_000 === 0) onLoads(count);
  }
  return { tickets, ticketWidth };
}

/** Elections and choices must be of loads that were delivered. */
function checkTickets(
  ticketed: readonly TicketedRow[],
  tickets: ReadonlyMap<string, number>,
  report: (problem: InputProblem) => void,
): void {
  for (const { file, line, ticket } of ticketed) {
    if (!tickets.has(ticket)) {
      report({
        file,
        line,
        column: 'ticket',
        message: `must be a ticket of loads.csv; there is no ${JSON.stringify(ticket)}`,
      });
    }
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
