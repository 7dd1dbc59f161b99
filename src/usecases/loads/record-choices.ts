/**
 * Records what the buyer decides about loads outside the agreed ranges.
 */
import { readChoiceRow } from '../../domain/tables/other-rows.ts';
import type { Row } from '../../domain/tables/row.ts';
import { CHOICES } from '../../domain/tables/table-shape.ts';
import type { Entering } from '../../journal/chain.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { readAllowances } from '../../store/rows/allowance-rows.ts';
import { readLoadsByTicket } from '../../store/rows/load-rows.ts';
import { type ChoiceRow, insertChoices, readChoices } from '../../store/rows/quote-rows.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { type InputRow, readInputRows } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { refuseSettled } from '../settlements/refuse-settled.ts';
import { choiceFact } from './choice-fact.ts';

export interface ChoicesToRecord {
  readonly agreementId: string;
  /** With the columns of `choices.csv`, and for a load that is refused `went_to`: where it went, in words. */
  readonly choices: readonly InputRow[];
  readonly key?: string;
}

/**
 * Returns how many choices are new; the same as stands is not written again.
 * Refuses `not-allowed`, `bad-input`, `not-found` (a ticket that was not recorded), `not-yours` where the caller's party
 * is not the buyer, `already-settled` where the load is settled, `correction-over` where both sides agreed on an
 * allowance for it. Until then the buyer may decide
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
    const read = readInputRows(choices, { shape: CHOICE_COLUMNS, read: readChoice, key: ['ticket'] });
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
    const rows = read.map(({ found: { ticket, choice }, optional }): ChoiceRow => {
      const load = loads.get(ticket);
      if (!load) throw new Refusal('not-found', `There is no load with ticket ${ticket}.`);
      return { id: context.newId(), loadId: load.id, ticket, choice, wentTo: optional('went_to') };
    });
    const ids = rows.map(({ loadId }) => loadId);
    const before = new Map((await readChoices(tx, agreementId, ids)).map((row) => [row.loadId, row]));
    const fresh = rows.filter((row) => !isSame(row, before.get(row.loadId)));
    await refuseSettled(tx, agreementId, fresh);
    await refuseAllowedFor(tx, agreementId, fresh);
    await insertChoices(tx, fresh, recorded);
    const facts = fresh.map(
      (row): Entering => ({
        kind: 'choice',
        fact: choiceFact(row),
        subjectId: row.id,
        postings: [],
      }),
    );
    await enterFacts(tx, facts, recorded);
    return { recorded: fresh.length };
  });
}

export const CHOICE_COLUMNS = { required: CHOICES.required, optional: ['went_to'] };

function readChoice(row: Row) {
  const read = readChoiceRow(row);
  if (row.optionalName('went_to') !== '' && read?.choice === 'accept') {
    row.fault('went_to', 'is for a load that is refused; leave it empty where the load is accepted');
  }
  return row.problems.length > 0 ? undefined : read;
}

function isSame(row: ChoiceRow, before: ChoiceRow | undefined): boolean {
  return before !== undefined && before.choice === row.choice && before.wentTo === row.wentTo;
}

/** Refuses `correction-over` where one of the loads is taken at an agreed allowance. */
async function refuseAllowedFor(
  tx: Transaction,
  agreementId: string,
  rows: readonly ChoiceRow[],
): Promise<void> {
  const ids = rows.map(({ loadId }) => loadId);
  const [agreed] = await readAllowances(tx, agreementId, ids);
  if (!agreed) return;
  throw new Refusal(
    'correction-over',
    `Both sides agreed that load ${agreed.ticket} is taken at an allowance. That stands.`,
  );
}
