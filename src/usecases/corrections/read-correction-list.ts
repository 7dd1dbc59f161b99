/**
 * Corrections that are open, with what each changes and what it would mean in money; and those that ended.
 */
import { figuresFor } from '../../documents/figures.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement, readAgreements } from '../../store/rows/agreement-rows.ts';
import {
  type CorrectionEnd,
  type CorrectionRow,
  type CorrectionSubject,
  readCorrections,
} from '../../store/rows/correction-rows.ts';
import { findLoad } from '../../store/rows/load-rows.ts';
import { readQuoteVersions } from '../../store/rows/quote-rows.ts';
import { findResult } from '../../store/rows/result-rows.ts';
import { type FoundAgreement, sideOf, withVersions } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { ticketColumns } from '../loads/read-ticket.ts';
import type { InputRow } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { type ChangedCell, changedCells, resultCells } from './row-cells.ts';
import { tryOutCorrection } from './take-correction.ts';

export interface CorrectionView {
  readonly id: string;
  readonly agreementId: string;
  readonly agreementNumber: string;
  readonly partner: string;
  readonly subject: CorrectionSubject;
  readonly subjectId: string;
  /** "ticket T1", "the result of sample S1", "the quote of corn-elevator-bid on 2026-09-14". */
  readonly what: string;
  readonly reason: string;
  readonly isOurs: boolean;
  /** ISO 8601, UTC. */
  readonly proposedAt: string;
  readonly answer: CorrectionEnd | null;
  readonly answerReason: string | null;
  /** Empty for one that ended. */
  readonly changes: readonly ChangedCell[];
  readonly loads: readonly {
    readonly loadId: string;
    readonly ticket: string;
    readonly before: string;
    readonly after: string;
  }[];
  readonly currency: string;
  /** Why it can no longer be confirmed. */
  readonly obstacle: string | undefined;
}

/** Open ones first, the oldest of them first. Refuses `not-allowed`. */
export async function readCorrectionList(
  context: Context,
  { locale }: { readonly locale: string },
): Promise<readonly CorrectionView[]> {
  permit(context, 'read');
  const figures = figuresFor(locale);
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const views: CorrectionView[] = [];
    for (const row of await readAgreements(tx)) {
      const corrections = await readCorrections(tx, row.id);
      if (corrections.length === 0) continue;
      const found = await withVersions(tx, row);
      const isParty = sideOf(row, context.caller) !== 'adviser';
      if (isParty) await lockAgreement(tx, row.id);
      for (const correction of corrections) {
        const view = await viewOf(tx, context, { found, correction, isParty });
        const loads = view.loads.map((load) => ({
          ...load,
          before: figures.show(load.before),
          after: figures.show(load.after),
        }));
        views.push({ ...view, loads });
      }
    }
    return views.sort((a, b) => Number(a.answer !== null) - Number(b.answer !== null));
  });
}

interface ToView {
  readonly found: FoundAgreement;
  readonly correction: CorrectionRow;
  readonly isParty: boolean;
}

async function viewOf(
  tx: Transaction,
  context: Context,
  { found, correction, isParty }: ToView,
): Promise<CorrectionView> {
  const { partyId } = context.caller;
  const { row, agreement } = found;
  const { what, cells } = await subjectOf(tx, correction);
  const isOpen = correction.answer === null;
  const tried =
    isOpen && isParty
      ? await outlook(tx, context, { found, correction })
      : { loads: [], obstacle: undefined };
  return {
    id: correction.id,
    agreementId: row.id,
    agreementNumber: row.number,
    partner: row.sellerId === partyId ? row.buyerName : row.sellerName,
    subject: correction.subject,
    subjectId: correction.subjectId,
    what,
    reason: correction.reason,
    isOurs: correction.byPartyId === partyId,
    proposedAt: correction.recordedAt,
    answer: correction.answer,
    answerReason: correction.answerReason,
    changes: isOpen ? changedCells(cells, JSON.parse(correction.document) as InputRow) : [],
    currency: agreement.currency,
    ...tried,
  };
}

/** What confirming would do now, or why it would be refused. */
async function outlook(
  tx: Transaction,
  context: Context,
  { found, correction }: Pick<ToView, 'found' | 'correction'>,
): Promise<Pick<CorrectionView, 'loads' | 'obstacle'>> {
  // A refusal half way leaves what was tried: it is taken back here, too.
  await tx.$executeRawUnsafe('SAVEPOINT looked_ahead');
  try {
    const loads = await tryOutCorrection(tx, context, { found, correction, confirmed: true });
    return { loads, obstacle: undefined };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    await tx.$executeRawUnsafe('ROLLBACK TO SAVEPOINT looked_ahead');
    return { loads: [], obstacle: error.message };
  }
}

async function subjectOf(
  tx: Transaction,
  { agreementId, subject, subjectId }: CorrectionRow,
): Promise<{ readonly what: string; readonly cells: InputRow }> {
  switch (subject) {
    case 'load': {
      const row = await findLoad(tx, subjectId);
      return { what: `ticket ${row?.ticket ?? ''}`, cells: row ? ticketColumns(row) : {} };
    }
    case 'result': {
      const row = await findResult(tx, subjectId);
      return { what: `the result of sample ${row?.sample ?? ''}`, cells: row ? resultCells(row) : {} };
    }
    case 'quote': {
      const row = (await readQuoteVersions(tx, agreementId)).find(({ id }) => id === subjectId);
      return {
        what: `the quote of ${row?.series ?? ''} on ${row?.date ?? ''}`,
        cells: row ? { price: row.price } : {},
      };
    }
  }
}
