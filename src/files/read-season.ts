/**
 * A season's folder: `agreement.json`, `loads.csv` and, where they are there, `samples.csv`, `prices.csv`,
 * `elections.csv` and `choices.csv`. Everything is validated before anything is settled; loads are validated as they
 * stream past and read again to be settled, so that a million of them need no room.
 */
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { AgreementParts } from '../domain/agreement/check-agreement.ts';
import type { Agreement } from '../domain/agreement/document.ts';
import { zoneCalendar } from '../domain/dates/instant.ts';
import type { DeliveredLoad } from '../domain/deliveries/delivered-load.ts';
import { needsDistance } from '../domain/settlement/prepare-term.ts';
import type { Evidence } from '../domain/settlement/settle-load.ts';
import type { LoadRules } from '../domain/tables/load-row.ts';
import { LOADS } from '../domain/tables/table-shape.ts';
import type { InputProblem } from './input-problem.ts';
import { readAgreement } from './read-agreement.ts';
import { readEvidence, type TicketedRow } from './read-evidence.ts';
import { readLoads } from './read-loads.ts';

const FILES = ['agreement.json', 'loads.csv', 'samples.csv', 'prices.csv', 'elections.csv', 'choices.csv'];

export interface Season {
  readonly agreement: Agreement;
  /** The agreement as it was written. */
  readonly document: unknown;
  readonly evidence: Evidence;
  readonly loadCount: number;
  /** Characters of the longest ticket. */
  readonly ticketWidth: number;
  /** The loads in file order, many at a time, read anew at each call. Throws `UnreadableFile` where the file has changed since. */
  readonly loads: () => AsyncGenerator<readonly DeliveredLoad[]>;
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
  const { agreement, document, parts } = await readAgreement(join(folder, 'agreement.json'), report);
  const { evidence, ticketed } = await readEvidence({ folder, names, parts, report, warn });
  const { tickets, complete, ticketWidth, loads } = await readLoads(join(folder, LOADS.file), {
    rules: loadRules(parts),
    report,
    warn,
    onLoads,
  });
  // A ticket that nobody could read must not make its election or choice wrong as well.
  if (complete) checkTickets(ticketed, tickets, report);
  sortByPlace(problems);
  if (!agreement || problems.length > 0) return { season: undefined, problems, warnings };
  const season = { agreement, document, evidence, loadCount: tickets.size, ticketWidth, loads };
  return { season, problems, warnings };
}

function loadRules({ timeZone, price }: AgreementParts): LoadRules {
  const distanceNeeded = price.some(needsDistance);
  return { calendar: zoneCalendar(timeZone ?? 'UTC'), distanceNeeded: () => distanceNeeded };
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

/** File after file as they are listed above, and line after line within a file. */
function sortByPlace(problems: InputProblem[]): void {
  problems.sort((a, b) => FILES.indexOf(a.file) - FILES.indexOf(b.file) || (a.line ?? 0) - (b.line ?? 0));
}
