/**
 * A party's own list as a file: what its columns seem to be, and its rows by a match.
 */
import { zoneCalendar } from '../../domain/dates/instant.ts';
import { type OwnRow, readOwnRow } from '../../domain/matching/own-row.ts';
import { type ColumnMatch, checkMatch } from '../../domain/tables/column-match.ts';
import { proposeMatch } from '../../domain/tables/match-columns.ts';
import { matchedRows } from '../../domain/tables/matched-rows.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { rememberedMatch } from '../import/kept-match.ts';
import type { MatchedImport } from '../import/match-import.ts';
import { openFile, readAnyMatch } from '../import/open-import.ts';
import { badInput } from '../read-input-rows.ts';

const ROWS_LOOKED_AT = 500;
const ROWS_SHOWN = 5;

export interface OwnListFile {
  readonly agreementId: string;
  readonly bytes: Uint8Array;
}

/**
 * What a file's columns seem to be, or were said to be when such a file came last. Refuses `not-allowed`, `not-found`,
 * `not-yours`, and `bad-input` where the file cannot be read.
 */
export async function matchOwnList(
  context: Context,
  { agreementId, bytes }: OwnListFile,
): Promise<MatchedImport & { readonly isRemembered: boolean }> {
  permit(context, 'correct');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const { agreement } = await findOwnAgreement(tx, context.caller, agreementId);
    const { header, rows } = openFile(bytes);
    const cells = rows.slice(0, ROWS_LOOKED_AT).map((row) => row.cells);
    const remembered = await rememberedMatch(tx, { kind: 'own-loads', header });
    return {
      header,
      rowCount: rows.length,
      firstRows: cells.slice(0, ROWS_SHOWN),
      proposal: remembered ?? proposeMatch({ kind: 'own-loads', header, rows: cells }),
      timeZone: agreement.timeZone,
      series: [],
      isRemembered: remembered !== undefined,
    };
  });
}

export interface OpenedOwnList {
  readonly match: ColumnMatch;
  readonly header: readonly string[];
  readonly rows: readonly OwnRow[];
  /** Rows that hold no load: sums, blank lines, remarks. */
  readonly left: readonly { readonly line: number; readonly wrong: string }[];
}

/** The rows of a file by a match. Refuses `bad-input` where either cannot be used, or no row can be read. */
export function openOwnList(
  timeZone: string,
  { bytes, match }: { readonly bytes: Uint8Array; readonly match: unknown },
): OpenedOwnList {
  const read = readAnyMatch(match);
  if (read.kind !== 'own-loads') throw badInput([{ column: 'kind', message: 'must be a list of loads' }]);
  const { header, rows } = openFile(bytes);
  const problems = checkMatch(read, header.length);
  if (problems.length > 0) {
    throw badInput(problems.map(({ wanted, message }) => ({ column: wanted, message })));
  }
  const taken: OwnRow[] = [];
  const left: { line: number; wrong: string }[] = [];
  for (const { line, texts, problems: faults } of matchedRows({
    match: read,
    header,
    rows,
    calendar: zoneCalendar(timeZone),
  })) {
    const [fault] = faults;
    const own = fault
      ? { wrong: fault.column === undefined ? fault.message : `${fault.column} ${fault.message}` }
      : readOwnRow(texts, String(line));
    if ('row' in own) taken.push(own.row);
    else left.push({ line, wrong: own.wrong });
  }
  if (taken.length === 0) {
    const message = `has no row that can be read; line ${left[0]?.line ?? 2} ${left[0]?.wrong ?? 'is empty'}`;
    throw badInput([{ column: 'file', message }]);
  }
  return { match: read, header, rows: taken, left };
}
