/**
 * What one side puts to the other about a season: a difference of their books that is left standing, and money for a season
 * that is sealed already. Neither changes anything that was recorded; the other side has to agree.
 */
import { parseMinorUnits } from '../../domain/money/minor-units.ts';
import type { SeasonNoteFact } from '../../journal/season-facts.ts';
import type { Transaction } from '../../store/open-store.ts';
import { findLoad, readLoadsByTicket } from '../../store/rows/load-rows.ts';
import { insertSeasonNote } from '../../store/rows/season-note-rows.ts';
import { isId } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { readReason } from '../corrections/read-reason.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { type MoneyFrame, moneyFrame } from '../money/money-frame.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { badInput } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { findSealedSeason } from './find-sealed-season.ts';

export interface DifferenceToNote {
  readonly agreementId: string;
  /** The load that it is about, or its ticket; without one, something else of the season. */
  readonly loadId?: string;
  readonly ticket?: string;
  /**
   * How much more the buyer owes by the caller's own books than by the record, a decimal string; below zero where it is less,
   * 0 where no money differs.
   */
  readonly amount: string;
  /** What differs, in a sentence that both read. */
  readonly reason: string;
  readonly key?: string;
}

/**
 * Proposes to leave a difference standing: the record stays, and both closing statements name the difference. Returns the
 * note's id. Refuses `not-allowed`, `not-found`, `not-yours`, `bad-input`, `season-closed`.
 */
export async function noteDifference(
  context: Context,
  { agreementId, loadId, ticket, amount, reason, key }: DifferenceToNote,
): Promise<{ readonly noteId: string }> {
  permit(context, 'correct');
  const input = { loadId: loadId ?? null, ticket: ticket ?? null, amount, reason };
  return await doOnce(context, { verb: 'note-difference', subject: agreementId, key, input }, async (tx) => {
    const frame = await moneyFrame(tx, context, agreementId);
    if (loadId !== undefined) await refuseOtherLoad(tx, frame, loadId);
    return await enterNote(tx, context, {
      frame,
      fact: {
        kind: 'difference',
        load: loadId ?? (await loadOfTicket(tx, agreementId, ticket)),
        ofAgreement: null,
        ofLoad: null,
        amount: frame.print(readAmount(frame, amount, { mayBeNothing: true })),
        reason: readReason(reason, 'what differs'),
        party: context.caller.partyId,
      },
    });
  });
}

export interface PastSeasonMoney {
  /** The agreement that takes it up. */
  readonly agreementId: string;
  /** The one whose season is sealed. */
  readonly ofAgreementId: string;
  /** A load of that season by its ticket; without one, the season as a whole. */
  readonly ticket?: string;
  /** A decimal string, above zero where the buyer owes it, below where the seller does. */
  readonly amount: string;
  readonly reason: string;
  readonly key?: string;
}

/**
 * Proposes money for a sealed season, to be owed under this agreement. Returns the note's id. Refuses `not-allowed`,
 * `not-found`, `not-yours`, `bad-input`, `season-closed` where this agreement is sealed too, and `not-ready` where the other one
 * is not.
 */
export async function proposePastSeason(
  context: Context,
  { agreementId, ofAgreementId, ticket, amount, reason, key }: PastSeasonMoney,
): Promise<{ readonly noteId: string }> {
  permit(context, 'correct');
  const input = { ofAgreementId, ticket: ticket ?? null, amount, reason };
  return await doOnce(
    context,
    { verb: 'propose-past-season', subject: agreementId, key, input },
    async (tx) => {
      const frame = await moneyFrame(tx, context, agreementId);
      const { found } = await findSealedSeason(tx, frame, ofAgreementId);
      return await enterNote(tx, context, {
        frame,
        fact: {
          kind: 'past-season',
          load: null,
          ofAgreement: found.row.id,
          ofLoad: await loadOfTicket(tx, found.row.id, ticket),
          amount: frame.print(readAmount(frame, amount, { mayBeNothing: false })),
          reason: readReason(reason, 'what it is for'),
          party: context.caller.partyId,
        },
      });
    },
  );
}

async function refuseOtherLoad(tx: Transaction, { agreementId }: MoneyFrame, loadId: string): Promise<void> {
  const load = isId(loadId) ? await findLoad(tx, loadId) : undefined;
  if (load?.agreementId !== agreementId) throw new Refusal('not-found', 'There is no such load.');
}

async function loadOfTicket(
  tx: Transaction,
  agreementId: string,
  ticket: string | undefined,
): Promise<string | null> {
  const wanted = ticket?.trim() ?? '';
  if (wanted === '') return null;
  const load = (await readLoadsByTicket(tx, agreementId, [wanted])).get(wanted);
  if (load) return load.id;
  const message = `must be a ticket of that season, or empty; it has no ${JSON.stringify(wanted)}`;
  throw badInput([{ column: 'ticket', message }]);
}

function readAmount(
  { money }: MoneyFrame,
  text: string,
  { mayBeNothing }: { readonly mayBeNothing: boolean },
): bigint {
  const units = parseMinorUnits(text.trim(), money);
  if (units !== undefined && (mayBeNothing || units !== 0n)) return units;
  const what = mayBeNothing ? 'an amount, 0 where no money differs' : 'an amount other than 0';
  const message = `must be ${what}, in ${money.currency} with ${money.decimals} decimals at most; found ${JSON.stringify(text)}`;
  throw badInput([{ column: 'amount', message }]);
}

async function enterNote(
  tx: Transaction,
  context: Context,
  { frame, fact }: { readonly frame: MoneyFrame; readonly fact: SeasonNoteFact },
): Promise<{ readonly noteId: string }> {
  const noteId = context.newId();
  await insertSeasonNote(tx, { id: noteId, fact }, frame.recorded);
  await enterFacts(tx, [{ kind: 'season-note', fact, subjectId: noteId, postings: [] }], frame.recorded);
  const kind = fact.kind === 'difference' ? 'difference-came' : 'past-season-came';
  await tellPartner(tx, context, { found: frame.found, kind });
  return { noteId };
}
