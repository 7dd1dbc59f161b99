/**
 * The second step of an import: row by row what would be added, what is there already, what differs from the record and
 * what is wrong. Nothing is written.
 */
import type { ImportKind } from '../../domain/tables/wanted-columns.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { Refusal } from '../refusal.ts';
import { importKey, recordRows, takenBefore } from './import-key.ts';
import { type JudgedRow, judgeRows } from './judge-rows.ts';
import type { RowStanding } from './judgement.ts';
import { type FileToImport, IMPORT_VERBS, openImport, readMatch } from './open-import.ts';

export interface ImportPreview {
  readonly kind: ImportKind;
  readonly header: readonly string[];
  /** In the file's order. */
  readonly rows: readonly JudgedRow[];
  readonly counts: Readonly<Record<RowStanding, number>>;
  /** What is asked before the rows are taken, in words: figures that are possible and hardly ever right. */
  readonly unusual: string | undefined;
  /** Why the good rows together would be refused, in words. */
  readonly refused: string | undefined;
  /** Whether this very file was brought in before, by this match. */
  readonly isTaken: boolean;
}

/** Refuses `not-allowed`, `not-found`, `not-yours`, and `bad-input` where file or match cannot be used at all. */
export async function previewImport(context: Context, file: FileToImport): Promise<ImportPreview> {
  const { kind } = readMatch(file.match);
  permit(context, IMPORT_VERBS[kind]);
  const judged = await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, file.agreementId);
    const opened = openImport(found, file);
    const isTaken = await takenBefore(tx, context, importKey(file));
    return { header: opened.header, rows: await judgeRows(tx, context, { found, opened }), isTaken };
  });
  const told = judged.isTaken ? {} : await tryOut(context, { file, kind, rows: judged.rows });
  return { kind, ...judged, counts: countRows(judged.rows), unusual: told.unusual, refused: told.refused };
}

/** How many rows are of each standing. */
export function countRows(rows: readonly JudgedRow[]): Record<RowStanding, number> {
  const counts: Record<RowStanding, number> = { new: 0, there: 0, differs: 0, wrong: 0 };
  for (const { standing } of rows) counts[standing] += 1;
  return counts;
}

interface ToTryOut {
  readonly file: FileToImport;
  readonly kind: ImportKind;
  readonly rows: readonly JudgedRow[];
}

/** Records the new rows as taking them would, and takes all of it back: what would be asked or refused is known now. */
async function tryOut(
  context: Context,
  { file, kind, rows }: ToTryOut,
): Promise<{ readonly unusual?: string; readonly refused?: string }> {
  const fresh = rows.filter(({ standing }) => standing === 'new').map(({ texts }) => texts);
  if (fresh.length === 0) return {};
  const { store } = context;
  const trying: Context = {
    ...context,
    store: {
      ...store,
      forParty: (partyId, work) =>
        store.forParty(partyId, async (tx) => {
          await work(tx);
          throw new TakenBack();
        }),
    },
  };
  try {
    await recordRows(trying, { agreementId: file.agreementId, kind, rows: fresh });
  } catch (error) {
    if (error instanceof TakenBack) return {};
    if (!(error instanceof Refusal)) throw error;
    return error.code === 'unusual' ? { unusual: error.message } : { refused: error.message };
  }
  return {};
}

/** Ends a transaction without leaving anything behind. */
class TakenBack extends Error {}
