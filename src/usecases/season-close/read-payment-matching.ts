/**
 * A party's own list of payments matched with the payments of the record that count.
 */
import { countStandings, type Standing } from '../../domain/matching/match-lists.ts';
import { matchPayments, type PaymentOutcome } from '../../domain/matching/payments/match-payments.ts';
import type { OwnPayment } from '../../domain/matching/payments/own-payment.ts';
import { moneyOf } from '../../domain/settlement/settle-load.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type OwnListRow, readOwnList } from '../../store/rows/own-list-rows.ts';
import { type FoundAgreement, findOwnAgreement, sideOf } from '../agreements/find-agreement.ts';
import { type Caller, type Context, permit } from '../context.ts';
import { type Marked, partOutcomes } from './part-outcomes.ts';
import type { MatchingView } from './read-matching.ts';
import { recordPayments } from './record-payments.ts';

/** In the order in which they are told. */
export const PAYMENT_STANDINGS = [
  'agrees',
  'amount-differs',
  'date-differs',
  'only-in-mine',
  'only-in-record',
  'twice',
] as const satisfies readonly Standing[];

export interface PaymentMatchingView
  extends Omit<MatchingView, 'counts' | 'open' | 'accepted' | 'left' | 'put'> {
  /** A seller's list says what was received, a buyer's what was paid. */
  readonly side: 'seller' | 'buyer';
  readonly counts: Readonly<Record<(typeof PAYMENT_STANDINGS)[number], number>>;
  readonly open: readonly Marked<PaymentOutcome>[];
  readonly accepted: readonly Marked<PaymentOutcome>[];
}

export interface MatchedPayments {
  readonly own: OwnListRow;
  readonly ownRows: number;
  readonly recordRows: number;
  readonly outcomes: readonly PaymentOutcome[];
}

/** The caller's own list of payments matched with those that count; undefined where there is no list. */
export async function matchOwnPayments(
  tx: Transaction,
  found: FoundAgreement,
  { partyId }: Caller,
): Promise<MatchedPayments | undefined> {
  const own = await readOwnList(tx, { agreementId: found.row.id, kind: 'own-payments', partyId });
  if (!own) return undefined;
  const mine = JSON.parse(own.rows) as readonly OwnPayment[];
  const record = await recordPayments(tx, found);
  const { decimals } = moneyOf(found.agreement);
  const outcomes = matchPayments({ mine, record }, { decimals });
  return { own, ownRows: mine.length, recordRows: record.length, outcomes };
}

/** Undefined where the party has brought no such list. Refuses `not-allowed`, `not-found`, `not-yours`. */
export async function readPaymentMatching(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<PaymentMatchingView | undefined> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    const matched = await matchOwnPayments(tx, found, context.caller);
    if (!matched) return undefined;
    const { own, ownRows, recordRows, outcomes } = matched;
    const { counted, open, accepted } = await partOutcomes(tx, own, outcomes);
    return {
      currency: moneyOf(found.agreement).currency,
      side: sideOf(found.row, context.caller) === 'seller' ? 'seller' : 'buyer',
      fileName: own.fileName,
      broughtAt: own.recordedAt,
      ownRows,
      recordRows,
      counts: countStandings(PAYMENT_STANDINGS, counted),
      open,
      accepted,
    };
  });
}
