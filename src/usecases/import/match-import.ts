/**
 * The first step of an import: what a file's columns seem to be, for the person to correct.
 */
import { type MatchProposal, proposeMatch } from '../../domain/tables/match-columns.ts';
import type { ImportKind } from '../../domain/tables/wanted-columns.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { seriesOf } from '../prices/followed-series.ts';
import { IMPORT_VERBS, openFile } from './open-import.ts';

export interface ImportToMatch {
  readonly agreementId: string;
  readonly kind: ImportKind;
  readonly bytes: Uint8Array;
}

export interface MatchedImport {
  readonly header: readonly string[];
  /** How many rows are under the header, and the first of them. */
  readonly rowCount: number;
  readonly firstRows: readonly (readonly string[])[];
  readonly proposal: MatchProposal;
  /** Of the agreement that it goes to. */
  readonly timeZone: string;
  readonly series: readonly string[];
}

const ROWS_LOOKED_AT = 500;
const ROWS_SHOWN = 5;

/** Refuses `not-allowed`, `not-found`, `not-yours`, and `bad-input` where the file cannot be read. */
export async function matchImport(
  context: Context,
  { agreementId, kind, bytes }: ImportToMatch,
): Promise<MatchedImport> {
  permit(context, IMPORT_VERBS[kind]);
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    const { header, rows } = openFile(bytes);
    const cells = rows.slice(0, ROWS_LOOKED_AT).map((row) => row.cells);
    return {
      header,
      rowCount: rows.length,
      firstRows: cells.slice(0, ROWS_SHOWN),
      proposal: proposeMatch({ kind, header, rows: cells }),
      timeZone: found.agreement.timeZone,
      series: seriesOf(found),
    };
  });
}
