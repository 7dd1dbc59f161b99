/**
 * A party's own list of payments matched with the payments of the record that count.
 */
import { countStandings, type Standing, standingsOf } from '../../domain/matching/match-lists.ts';
import { matchPayments, type PaymentOutcome } from '../../domain/matching/payments/match-payments.ts';
import type { OwnPayment } from '../../domain/matching/payments/own-payment.ts';
import { moneyOf } from '../../domain/settlement/settle-load.ts';
import { readOwnList } from '../../store/rows/own-list-rows.ts';
import { findOwnAgreement, sideOf } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
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

export interface PaymentMatchingView extends Omit<MatchingView, 'counts' | 'open'> {
  /** A seller's list says what was received, a buyer's what was paid. */
  readonly side: 'seller' | 'buyer';
  readonly counts: Readonly<Record<(typeof PAYMENT_STANDINGS)[number], number>>;
  readonly open: readonly PaymentOutcome[];
}

/** Undefined where the party has brought no such list. Refuses `not-allowed`, `not-found`, `not-yours`. */
export async function readPaymentMatching(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<PaymentMatchingView | undefined> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    const own = await readOwnList(tx, { agreementId, kind: 'own-payments' });
    if (!own) return undefined;
    const mine = JSON.parse(own.rows) as readonly OwnPayment[];
    const record = await recordPayments(tx, found);
    const { currency, decimals } = moneyOf(found.agreement);
    const outcomes = matchPayments({ mine, record }, { decimals });
    return {
      currency,
      side: sideOf(found.row, context.caller) === 'seller' ? 'seller' : 'buyer',
      fileName: own.fileName,
      broughtAt: own.recordedAt,
      ownRows: mine.length,
      recordRows: record.length,
      counts: countStandings(PAYMENT_STANDINGS, outcomes),
      open: outcomes.filter((outcome) => !standingsOf(outcome).includes('agrees')),
    };
  });
}
