/**
 * What a correction does when it is confirmed: it puts its subject right and settles every load concerned anew; and the
 * same tried out, so that both sides see what it would mean in money before they agree. The agreement must be locked.
 */
import type { Transaction } from '../../store/open-store.ts';
import {
  type CorrectionRow,
  type CorrectionSubject,
  readSettledUpon,
} from '../../store/rows/correction-rows.ts';
import { findLoad, readLoads } from '../../store/rows/load-rows.ts';
import { readSettlements } from '../../store/rows/settlement-rows.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import { type Context, stamp } from '../context.ts';
import { readCorrectedTicket, writeCorrectedTicket } from '../loads/correct-load.ts';
import type { InputRow } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { resettle } from '../settlements/resettle.ts';
import { newestQuote, newestResult, putQuoteRight, putResultRight } from './put-right.ts';

export interface Concerned {
  readonly found: FoundAgreement;
  readonly subject: CorrectionSubject;
  readonly subjectId: string;
}

/** The settled loads that rest on a subject. Refuses `not-found`, `changed-meanwhile`. */
export async function loadsConcerned(
  tx: Transaction,
  { found, subject, subjectId }: Concerned,
): Promise<readonly string[]> {
  const agreementId = found.row.id;
  switch (subject) {
    case 'load': {
      const row = await findLoad(tx, subjectId);
      if (row?.agreementId !== agreementId) throw new Refusal('not-found', 'There is no such load.');
      return (await hasSettled(tx, agreementId, subjectId)) ? [subjectId] : [];
    }
    case 'result':
      await newestResult(tx, subjectId);
      return await readSettledUpon(tx, agreementId, { resultId: subjectId });
    case 'quote':
      await newestQuote(tx, agreementId, subjectId);
      return await readSettledUpon(tx, agreementId, { quoteId: subjectId });
  }
}

async function hasSettled(tx: Transaction, agreementId: string, loadId: string): Promise<boolean> {
  return (await readSettlements(tx, agreementId, [loadId])).length > 0;
}

export interface ToTake {
  readonly found: FoundAgreement;
  readonly correction: Pick<CorrectionRow, 'agreementId' | 'subject' | 'subjectId' | 'document' | 'reason'>;
  readonly confirmed: boolean | undefined;
}

/** Puts it right and settles the loads concerned anew. Returns how many settlements are new. */
export async function takeCorrection(
  tx: Transaction,
  context: Context,
  { found, correction, confirmed }: ToTake,
): Promise<number> {
  const { agreementId, subject, subjectId, reason } = correction;
  const loadIds = await loadsConcerned(tx, { found, subject, subjectId });
  const figures = JSON.parse(correction.document) as InputRow;
  const recorded = { agreementId, recordedAt: stamp(context), recordedBy: context.caller.personId };
  switch (subject) {
    case 'load': {
      const row = await findLoad(tx, subjectId);
      if (!row) throw new Refusal('not-found', 'There is no such load.');
      const ticket = await readCorrectedTicket(tx, {
        row,
        found,
        input: figures,
        confirmed,
        now: context.now(),
      });
      await writeCorrectedTicket(tx, context, { row, ticket, reason });
      break;
    }
    case 'result':
      await putResultRight(tx, context, { found, id: subjectId, figures, reason, recorded, confirmed });
      break;
    case 'quote':
      await putQuoteRight(tx, context, { found, id: subjectId, figures, reason, recorded, confirmed });
      break;
  }
  return await resettle(tx, context, { found, loadIds });
}

/** What a correction would change: a settled load, and what it comes to now and would come to. */
export interface CorrectedLoad {
  readonly loadId: string;
  readonly ticket: string;
  readonly before: string;
  readonly after: string;
}

/**
 * Does all that confirming would do, lets the caller look at it, and takes it back. What could not be confirmed is refused
 * here. Loads whose settlement would stay as it is are left out.
 */
export async function tryOutCorrection(
  tx: Transaction,
  context: Context,
  toTake: ToTake & { readonly look?: (loadIds: readonly string[]) => Promise<void> },
): Promise<readonly CorrectedLoad[]> {
  const { subject, subjectId } = toTake.correction;
  const agreementId = toTake.found.row.id;
  const loadIds = await loadsConcerned(tx, { found: toTake.found, subject, subjectId });
  const totals = async () =>
    new Map((await readSettlements(tx, agreementId, loadIds)).map((row) => [row.loadId, row]));
  const before = await totals();
  await tx.$executeRawUnsafe('SAVEPOINT tried_out');
  await takeCorrection(tx, context, toTake);
  const after = await totals();
  await toTake.look?.(loadIds);
  await tx.$executeRawUnsafe('ROLLBACK TO SAVEPOINT tried_out');
  return (await readLoads(tx, agreementId, loadIds)).flatMap(({ id, ticket }) => {
    const [was, is] = [before.get(id), after.get(id)];
    if (!was || !is || was.id === is.id) return [];
    return [{ loadId: id, ticket, before: was.total, after: is.total }];
  });
}
