/**
 * The other side agrees to a note about a season, or refuses it; whoever put it takes it back. Money for a sealed season
 * follows at once, as a note of the agreement that takes it up.
 */
import { FEEDS } from '../../domain/agreement/measures.ts';
import { dueOn } from '../../domain/money/due-date.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import type { LineLoad } from '../../domain/money/money-document.ts';
import type { SeasonNoteAnswerFact, SeasonNoteFact } from '../../journal/season-facts.ts';
import type { Transaction } from '../../store/open-store.ts';
import type { CorrectionEnd } from '../../store/rows/correction-rows.ts';
import { findLoad } from '../../store/rows/load-rows.ts';
import type { DocumentRow } from '../../store/rows/money/document-rows.ts';
import { findAgreementOf } from '../../store/rows/money/row-stamp.ts';
import { insertSeasonNoteAnswer, readSeasonNotes } from '../../store/rows/season-note-rows.ts';
import { isId } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { readReason } from '../corrections/read-reason.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { type MoneyFrame, moneyFrame } from '../money/money-frame.ts';
import { namedDocument, writeDocuments } from '../money/write-documents.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { Refusal } from '../refusal.ts';
import { findSealedSeason } from './find-sealed-season.ts';

export interface SeasonNoteToAnswer {
  readonly noteId: string;
  readonly answer: CorrectionEnd;
  /** Why it is refused. */
  readonly reason?: string;
  readonly key?: string;
}

/**
 * Refuses `not-allowed`, `not-found`, `not-yours`, `ended-already`, `bad-input` for a refusal without a reason, and
 * `season-closed` where its own season was sealed meanwhile.
 */
export async function answerSeasonNote(
  context: Context,
  { noteId, answer, reason = '', key }: SeasonNoteToAnswer,
): Promise<{ readonly answered: CorrectionEnd; readonly documentId: string | null }> {
  permit(context, 'correct');
  const asked = { verb: 'answer-season-note', subject: noteId, key, input: { answer, reason } };
  return await doOnce(context, asked, async (tx) => {
    const agreementId = isId(noteId) ? await findAgreementOf(tx, 'season_note', noteId) : undefined;
    if (agreementId === undefined) throw new Refusal('not-found', 'There is no such note.');
    const frame = await moneyFrame(tx, context, agreementId);
    const { notes, answers } = await readSeasonNotes(tx, [agreementId]);
    const note = notes.find(({ id }) => id === noteId);
    if (!note) throw new Refusal('not-found', 'There is no such note.');
    if (answers.some(({ fact }) => fact.note === noteId)) {
      throw new Refusal('ended-already', 'This note was answered already.');
    }
    if ((answer === 'withdrawn') !== (note.fact.party === context.caller.partyId)) {
      throw new Refusal(
        'not-yours',
        answer === 'withdrawn'
          ? 'Only the side that put it takes it back.'
          : 'Your side put this; the other side agrees or refuses.',
      );
    }
    const why = answer === 'refused' ? readReason(reason, 'why you refuse') : null;
    const isMoney = answer === 'confirmed' && note.fact.kind === 'past-season';
    const documentId = isMoney ? await issueFor(tx, context, { frame, note: note.fact }) : null;
    const fact: SeasonNoteAnswerFact = {
      note: noteId,
      answer,
      reason: why,
      document: documentId,
      party: context.caller.partyId,
    };
    const id = context.newId();
    await insertSeasonNoteAnswer(tx, { id, fact }, frame.recorded);
    await enterFacts(tx, [{ kind: 'season-note-answer', fact, subjectId: id, postings: [] }], frame.recorded);
    const kind = note.fact.kind === 'difference' ? 'difference-answered' : 'past-season-answered';
    await tellPartner(tx, context, { found: frame.found, kind });
    return { answered: answer, documentId };
  });
}

/** The debit or credit note that both agreed to. Returns its id. */
async function issueFor(
  tx: Transaction,
  context: Context,
  { frame, note }: { readonly frame: MoneyFrame; readonly note: SeasonNoteFact },
): Promise<string> {
  const { found, sealedOn } = await findSealedSeason(tx, frame, note.ofAgreement ?? '');
  const payable = minorUnits(note.amount, frame.money);
  const { row } = frame.found;
  const proposer = note.party === row.sellerId ? row.sellerName : row.buyerName;
  const load = note.ofLoad === null ? undefined : await findLoad(tx, note.ofLoad);
  const lowered = loweredBy(frame, { payable, ofAgreement: found.row.id });
  const named: LineLoad | null = load ? { ticket: load.ticket, deliveredOn: load.deliveredOn } : null;
  const [document] = await writeDocuments(tx, context, {
    frame,
    drafts: [
      {
        kind: payable < 0n ? 'credit-note' : 'debit-note',
        season: { rule: 'past-season', ofAgreement: found.row.id },
        of: { feed: FEEDS[found.agreement.feed], jointPayees: [] },
        dueOn: payable < 0n ? frame.today : dueOn(frame.conditions.payment ?? {}, { issuedOn: frame.today }),
        period: null,
        named: lowered ? [namedDocument(lowered)] : [],
        correctsId: lowered?.id ?? null,
        reason: `For the season of agreement ${found.row.number}, sealed on ${sealedOn}: ${note.reason}`,
        lines: [
          {
            load: named,
            label: load
              ? `Load ${load.ticket} of agreement ${found.row.number}`
              : `Season of agreement ${found.row.number}`,
            quantity: '1',
            unit: load ? 'load' : 'season',
            rate: frame.print(payable),
            amount: frame.print(payable),
            how: `as ${proposer} proposed and both agreed`,
          },
        ],
        deductions: [],
        advances: [],
        loads: [],
        payable,
      },
    ],
  });
  if (!document) throw new Error('A note was not written');
  return document.id;
}

/**
 * The note that a credit lowers, of those that brought that season forward into this agreement: the first due that is open for all
 * of it, else the one that is open for most.
 */
function loweredBy(
  { rows, standing }: MoneyFrame,
  { payable, ofAgreement }: { readonly payable: bigint; readonly ofAgreement: string },
): DocumentRow | undefined {
  if (payable >= 0n) return undefined;
  const open = new Map(standing.documents.map((document) => [document.id, document.open]));
  const left = ({ id }: DocumentRow) => open.get(id) ?? 0n;
  const brought = rows.documents
    .filter(({ fact }) => fact.seasonRule === 'brought-forward' && fact.ofAgreement === ofAgreement)
    .filter((row) => left(row) > 0n)
    .toSorted((a, b) => (a.fact.dueOn < b.fact.dueOn ? -1 : Number(a.fact.dueOn > b.fact.dueOn)));
  return (
    brought.find((row) => left(row) >= -payable) ??
    brought.toSorted((a, b) => (left(a) > left(b) ? -1 : Number(left(a) < left(b))))[0]
  );
}
