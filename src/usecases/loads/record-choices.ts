/**
 * Records what the buyer decides about loads outside the agreed ranges.
 */
import { readChoiceRow } from '../../domain/tables/other-rows.ts';
import { CHOICES } from '../../domain/tables/table-shape.ts';
import type { Entering } from '../../journal/chain.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { readLoadsByTicket } from '../../store/rows/load-rows.ts';
import { type ChoiceRow, insertChoices, readChoices } from '../../store/rows/quote-rows.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { type InputRow, readInputRows } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { refuseSettled } from '../settlements/refuse-settled.ts';

export interface ChoicesToRecord {
  readonly agreementId: string;
  /** With the columns of `choices.csv`. */
  readonly choices: readonly InputRow[];
  readonly key?: string;
}

/**
 * Returns how many choices are new; the same as stands is not written again.
 * Refuses `not-allowed`, `bad-input`, `not-found` (a ticket that was not recorded), `not-yours` where the caller's party
 * is not the buyer, `already-settled` where the load is settled. Until then the buyer may decide
 * otherwise, and the newest decision counts.
 */
export async function recordChoices(
  context: Context,
  { agreementId, choices, key }: ChoicesToRecord,
): Promise<{ readonly recorded: number }> {
  permit(context, 'record-choice');
  const asked = { verb: 'record-choice', subject: agreementId, key, input: choices };
  return await doOnce(context, asked, async (tx) => {
    const { row: of } = await findOwnAgreement(tx, context.caller, agreementId);
    const read = readInputRows(choices, { shape: CHOICES, read: readChoiceRow, key: ['ticket'] });
    if (read.length > 0 && of.buyerId !== context.caller.partyId) {
      throw new Refusal('not-yours', `Only ${of.buyerName}, the buyer, accepts or refuses loads.`);
    }
    await lockAgreement(tx, agreementId);
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: context.caller.personId };
    const loads = await readLoadsByTicket(
      tx,
      agreementId,
      read.map(({ found }) => found.ticket),
    );
    const rows = read.map(({ found: { ticket, choice } }): ChoiceRow => {
      const load = loads.get(ticket);
      if (!load) throw new Refusal('not-found', `There is no load with ticket ${ticket}.`);
      return { id: context.newId(), loadId: load.id, ticket, choice };
    });
    const ids = rows.map(({ loadId }) => loadId);
    const before = new Map((await readChoices(tx, agreementId, ids)).map((row) => [row.loadId, row]));
    const fresh = rows.filter((row) => before.get(row.loadId)?.choice !== row.choice);
    await refuseSettled(tx, agreementId, fresh);
    await insertChoices(tx, fresh, recorded);
    const facts = fresh.map(
      ({ id, loadId, choice }): Entering => ({
        kind: 'choice',
        fact: { load: loadId, choice },
        subjectId: id,
        postings: [],
      }),
    );
    await enterFacts(tx, facts, recorded);
    return { recorded: fresh.length };
  });
}
