/**
 * What could be issued under an agreement now: loads to be invoiced by their periods, notes, advances, and interest through
 * today. Nothing is issued by looking.
 */
import { conditionsOf } from '../../domain/agreement/conditions.ts';
import type { InvoicedBy } from '../../domain/money/invoice-periods.ts';
import { printWritten } from '../../domain/numbers/printing.ts';
import { paymentInWords } from '../../domain/words/payment-words.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type Context, permit } from '../context.ts';
import { groupRows } from '../group-rows.ts';
import { chargedSoFar, interestOwed } from './charge-interest.ts';
import { claimLoads, type LoadClaim } from './claim-loads.ts';
import { advancesReady } from './give-advances.ts';
import { isOver, periodOf } from './issue-invoices.ts';
import type { MoneyFrame } from './money-frame.ts';
import { readPartnerMoney } from './partner-money.ts';

/** Loads that share an invoice. Amounts are decimal strings. */
export interface ReadyPeriod {
  readonly from: string;
  readonly to: string;
  readonly isOver: boolean;
  readonly tickets: readonly string[];
  readonly amount: string;
}

export interface IssueView {
  readonly agreementId: string;
  readonly agreement: string;
  readonly partner: string;
  readonly side: 'seller' | 'buyer';
  readonly currency: string;
  readonly today: string;
  /** Both have signed its season shut: nothing is issued any more, and nothing is worked out that could be. */
  readonly isSealed: boolean;
  /** Who issues, by name, and whether that is the caller's party. */
  readonly issuer: string;
  readonly isIssuer: boolean;
  /** Which loads share an invoice; null where nothing is agreed about it. */
  readonly invoicedBy: InvoicedBy | null;
  /** The terms of payment in sentences; none where nothing is agreed. */
  readonly terms: readonly string[];
  readonly periods: readonly ReadyPeriod[];
  /** Tickets of loads that settled anew, or were refused or made void, since they were invoiced. */
  readonly corrected: readonly string[];
  /** Tickets of settled loads whose deductions need a dry matter that is not reported. */
  readonly lacking: readonly string[];
  /** Null where no advance is agreed. */
  readonly advance: AdvanceReady | null;
  /** Null where no interest is agreed. */
  readonly interest: InterestReady | null;
}

export interface AdvanceReady {
  readonly sharePercent: string;
  readonly tickets: readonly string[];
  readonly amount: string;
}

export interface InterestReady {
  readonly percentPerYear: string;
  /** What charging through today would come to; below zero where too much was charged. */
  readonly amount: string;
  /** Through which day it was charged before. */
  readonly chargedThrough: string | null;
}

/** Refuses `not-allowed`, and `not-found` for an agreement of others or one that is only advised on. */
export async function readIssue(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<IssueView> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const [one] = await readPartnerMoney(tx, context, { agreementId });
    if (!one) throw new Error('Reading an agreement that is not there was not refused');
    const { frame, partner } = one;
    const { conditions, found, issuer, side } = frame;
    const { isSealed } = found.row;
    const { claims, lacking } = isSealed ? { claims: [], lacking: [] } : await claimLoads(tx, frame);
    const isFresh = ({ isNote, corrects }: LoadClaim) => !isNote && corrects === null;
    const { seller, buyer } = found.agreement;
    return {
      agreementId: frame.agreementId,
      agreement: found.row.number,
      partner: partner.name,
      side,
      currency: frame.money.currency,
      today: frame.today,
      isSealed,
      issuer: issuer === 'seller' ? found.row.sellerName : found.row.buyerName,
      isIssuer: issuer === side,
      invoicedBy: conditions.payment?.invoices ?? null,
      terms:
        conditions.payment === undefined
          ? []
          : paymentInWords(conditions.payment, { seller, buyer, currency: frame.money.currency }),
      periods: periodsOf(frame, claims.filter(isFresh)),
      corrected: claims.filter((claim) => !isFresh(claim)).map(({ load }) => load.ticket),
      lacking,
      advance: isSealed ? null : await advanceReady(tx, frame),
      interest: isSealed ? null : await interestReady(tx, frame),
    };
  });
}

function periodsOf(frame: MoneyFrame, claims: readonly LoadClaim[]): readonly ReadyPeriod[] {
  return [...groupRows(claims, ({ load }) => periodOf(frame, load).key).values()].map((group) => {
    const days = group.map(({ load }) => load.deliveredOn).toSorted();
    const sum = group.reduce((total, { goods, deducted, advance }) => total + goods - deducted - advance, 0n);
    return {
      from: days.at(0) ?? '',
      to: days.at(-1) ?? '',
      isOver: group.some((claim) => isOver(frame, claim)),
      tickets: group.map(({ load }) => load.ticket),
      amount: frame.print(sum),
    };
  });
}

async function advanceReady(tx: Transaction, frame: MoneyFrame): Promise<AdvanceReady | null> {
  const agreed = frame.found.versions.findLast(({ agreement }) => conditionsOf(agreement)?.advance);
  const terms = agreed && conditionsOf(agreed.agreement)?.advance;
  if (!terms) return null;
  const ready = await advancesReady(tx, frame);
  return {
    sharePercent: printWritten(terms.sharePercent),
    tickets: ready.map(({ load }) => load.row.ticket),
    amount: frame.print(ready.reduce((sum, { units }) => sum + units, 0n)),
  };
}

async function interestReady(tx: Transaction, frame: MoneyFrame): Promise<InterestReady | null> {
  const agreed = frame.conditions.payment?.interest;
  if (!agreed) return null;
  const charged = await chargedSoFar(tx, frame);
  const owed = interestOwed(frame, { through: frame.today, charged });
  return {
    percentPerYear: printWritten(agreed.percentPerYear),
    amount: frame.print(owed.reduce((sum, { units }) => sum + units, 0n)),
    chargedThrough: charged.through,
  };
}
