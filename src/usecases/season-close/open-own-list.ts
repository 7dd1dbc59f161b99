/**
 * A party's own list as a file: what its columns seem to be, and its rows by a match.
 */
import { zoneCalendar } from '../../domain/dates/instant.ts';
import { type OwnRow, readOwnRow } from '../../domain/matching/own-row.ts';
import {
  type OwnBooks,
  type OwnPayment,
  readOwnPayment,
  withSigns,
} from '../../domain/matching/payments/own-payment.ts';
import { type ColumnMatch, checkMatch } from '../../domain/tables/column-match.ts';
import { proposeMatch } from '../../domain/tables/match-columns.ts';
import { matchedRows } from '../../domain/tables/matched-rows.ts';
import { OWN_KINDS, type OwnKind } from '../../domain/tables/wanted-columns.ts';
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

export interface OwnListToMatch extends OwnListFile {
  /** Loads where nothing else is said. */
  readonly kind?: OwnKind;
}

/**
 * What a file's columns seem to be, or were said to be when such a file came last. Refuses `not-allowed`, `not-found`,
 * `not-yours`, and `bad-input` where the file cannot be read.
 */
export async function matchOwnList(
  context: Context,
  { agreementId, bytes, kind = 'own-loads' }: OwnListToMatch,
): Promise<MatchedImport & { readonly isRemembered: boolean }> {
  permit(context, 'correct');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const { agreement } = await findOwnAgreement(tx, context.caller, agreementId);
    const { header, rows } = openFile(bytes);
    const cells = rows.slice(0, ROWS_LOOKED_AT).map((row) => row.cells);
    const remembered = await rememberedMatch(tx, { kind, header });
    return {
      header,
      rowCount: rows.length,
      firstRows: cells.slice(0, ROWS_SHOWN),
      proposal: remembered ?? proposeMatch({ kind, header, rows: cells }),
      timeZone: agreement.timeZone,
      series: [],
      isRemembered: remembered !== undefined,
    };
  });
}

export interface OpenedOwnList {
  readonly match: ColumnMatch & { readonly kind: OwnKind };
  readonly header: readonly string[];
  readonly rows: readonly (OwnRow | OwnPayment)[];
  /** Rows that hold no load or payment: sums, blank lines, remarks. */
  readonly left: readonly LeftRow[];
  /** Of payments: the list writes with a minus what its party usually does. */
  readonly isMinusUsual: boolean;
}

export interface LeftRow {
  readonly line: number;
  readonly wrong: string;
}

/** The rows of a file by a match. Refuses `bad-input` where either cannot be used, or no row can be read. */
export function openOwnList(
  { timeZone, ...books }: OwnBooks & { readonly timeZone: string },
  { bytes, match }: { readonly bytes: Uint8Array; readonly match: unknown },
): OpenedOwnList {
  const read = readAnyMatch(match);
  const kind = OWN_KINDS.find((own) => own === read.kind);
  if (!kind) throw badInput([{ column: 'kind', message: 'must be a list of loads or of payments' }]);
  const { header, rows } = openFile(bytes);
  const problems = checkMatch(read, header.length);
  if (problems.length > 0) {
    throw badInput(problems.map(({ wanted, message }) => ({ column: wanted, message })));
  }
  const matched = matchedRows({ match: read, header, rows, calendar: zoneCalendar(timeZone) });
  const opened = { match: { ...read, kind }, header };
  if (kind === 'own-loads') {
    const { taken, left } = takeRows(matched, (texts, id) => {
      const own = readOwnRow(texts, id);
      return 'row' in own ? { taken: own.row } : own;
    });
    return { ...opened, rows: taken, left, isMinusUsual: false };
  }
  const { taken, left } = takeRows(matched, (texts, id) => {
    const own = readOwnPayment(texts, { ...books, id });
    return 'row' in own ? { taken: own } : own;
  });
  return { ...opened, ...withSigns(taken), left };
}

type Texts = ReturnType<typeof matchedRows>[number]['texts'];

/** The rows that can be read, and the others with what is wrong. Refuses `bad-input` where there is none. */
function takeRows<Row>(
  matched: ReturnType<typeof matchedRows>,
  read: (texts: Texts, id: string) => { readonly taken: Row } | { readonly wrong: string },
): { readonly taken: readonly Row[]; readonly left: readonly LeftRow[] } {
  const taken: Row[] = [];
  const left: LeftRow[] = [];
  for (const { line, texts, problems } of matched) {
    const [fault] = problems;
    const own = fault
      ? { wrong: fault.column === undefined ? fault.message : `${fault.column} ${fault.message}` }
      : read(texts, String(line));
    if ('taken' in own) taken.push(own.taken);
    else left.push({ line, wrong: own.wrong });
  }
  if (taken.length === 0) {
    const message = `has no row that can be read; line ${left[0]?.line ?? 2} ${left[0]?.wrong ?? 'is empty'}`;
    throw badInput([{ column: 'file', message }]);
  }
  return { taken, left };
}
