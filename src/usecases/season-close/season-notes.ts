/**
 * What two parties put to each other about a season, as both read it.
 */
import type { LocalDate } from '../../domain/dates/local-date.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readSeasonNotes } from '../../store/rows/season-note-rows.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import type { Caller } from '../context.ts';
import { moneyOfAgreement } from '../money/money-frame.ts';

export interface SeasonNoteView {
  readonly id: string;
  readonly kind: 'difference' | 'past-season';
  /** The load that it is about. */
  readonly loadId: string | null;
  readonly ticket: string | null;
  readonly ofAgreementId: string | null;
  /** Who put it, by name. */
  readonly by: string;
  readonly isOurs: boolean;
  readonly on: LocalDate;
  /** A decimal string, above zero where the buyer owes it, or would by the books of who put it. */
  readonly amount: string;
  readonly reason: string;
  readonly standing: 'open' | 'confirmed' | 'refused' | 'withdrawn';
  readonly answeredOn: LocalDate | undefined;
  readonly answerReason: string | null;
  /** The note of money that followed. */
  readonly documentId: string | null;
}

/** Of an agreement, the first put first. */
export async function seasonNotesOf(
  tx: Transaction,
  found: FoundAgreement,
  { partyId }: Pick<Caller, 'partyId'>,
): Promise<readonly SeasonNoteView[]> {
  const { sellerId, sellerName, buyerName } = found.row;
  const { dayOf } = moneyOfAgreement(found);
  const { notes, answers } = await readSeasonNotes(tx, [found.row.id]);
  const byNote = new Map(answers.map((answer) => [answer.fact.note, answer]));
  return notes.map(({ id, fact, ticket, recordedAt }): SeasonNoteView => {
    const answer = byNote.get(id);
    return {
      id,
      kind: fact.kind as SeasonNoteView['kind'],
      loadId: fact.load ?? fact.ofLoad,
      ticket,
      ofAgreementId: fact.ofAgreement,
      by: fact.party === sellerId ? sellerName : buyerName,
      isOurs: fact.party === partyId,
      on: dayOf(recordedAt),
      amount: fact.amount,
      reason: fact.reason,
      standing: (answer?.fact.answer as SeasonNoteView['standing'] | undefined) ?? 'open',
      answeredOn: answer && dayOf(answer.recordedAt),
      answerReason: answer?.fact.reason ?? null,
      documentId: answer?.fact.document ?? null,
    };
  });
}
