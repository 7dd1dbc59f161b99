/**
 * The payments, set-offs and liens of one agreement as a page shows them, and what is open to be paid.
 */
import { daysLate } from '../../domain/money/ageing.ts';
import { daysAfter } from '../../domain/money/due-date.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import { documentName } from '../../domain/money/money-document.ts';
import { earlyDiscount, type Spread } from '../../domain/money/spread.ts';
import type { StandingDocument } from '../../domain/money/standing.ts';
import { decimal } from '../../domain/numbers/exact.ts';
import { roundToUnits } from '../../domain/numbers/rounding.ts';
import type { AllocationFact, PaymentAnswerFact } from '../../journal/money-facts.ts';
import { type Context, permit } from '../context.ts';
import { jointPayeesOf, type MoneyFrame } from './money-frame.ts';
import { readPartnerMoney } from './partner-money.ts';
import { paymentName } from './payment-name.ts';
import { storedSpread } from './spread-wanted.ts';
import { compareText, nameOf } from './statement-entries.ts';

/** What of a document money settled. */
export interface SettledPart {
  readonly documentId: string;
  readonly name: string;
  readonly amount: string;
  /** For paying early; "0.00" where none was earned. */
  readonly discount: string;
}

/** How money is to be used, as whoever recorded it says. */
export interface WantedSpread {
  readonly kind: Spread['kind'];
  /** For `as-said`. */
  readonly parts: readonly { readonly name: string; readonly amount: string }[];
}

export interface PaymentView {
  readonly paymentId: string;
  readonly name: string;
  readonly amount: string;
  readonly paidOn: string;
  /** Whether the caller's party is the payer. */
  readonly isPaidByUs: boolean;
  readonly isRecordedByUs: boolean;
  readonly madeOutTo: 'seller' | 'jointly';
  readonly pastLien: string | null;
  /** "recorded" waits for the payee. */
  readonly state: 'recorded' | 'confirmed' | 'contested' | 'withdrawn' | 'returned';
  /** Why it was contested or came back. */
  readonly reason: string | null;
  /** What of it pays no document and is on account; '' where there is none, or it counts for nothing. */
  readonly toAccount: string;
  /** The day on which the bank gave it back. */
  readonly returnedOn: string | null;
  readonly wanted: WantedSpread;
  readonly settles: readonly SettledPart[];
}

export interface SetOffView {
  readonly setOffId: string;
  readonly amount: string;
  readonly reason: string;
  readonly isOurs: boolean;
  readonly state: 'open' | 'confirmed' | 'refused' | 'withdrawn';
  /** Why it was refused. */
  readonly answerReason: string | null;
  readonly wanted: WantedSpread;
  readonly settles: readonly SettledPart[];
}

export interface LienView {
  readonly lienId: string;
  readonly lender: string;
  readonly debtor: string;
  readonly cropYear: string;
  readonly county: string;
  readonly conditions: string;
  readonly receivedOn: string;
  /** Null while it stands. */
  readonly endedOn: string | null;
  /** What says that it is over. */
  readonly endReason: string | null;
}

export interface PayableDocument {
  readonly documentId: string;
  readonly name: string;
  readonly dueOn: string;
  readonly daysLate: number;
  /** Open and not held. */
  readonly due: string;
  /** '' where nothing is held. */
  readonly held: string;
  /** What paying it in full today takes off it, and until when it does; '' where nothing is earned. */
  readonly discount: string;
  readonly discountUntil: string;
}

export interface AgreementPayments {
  readonly agreementId: string;
  readonly agreement: string;
  readonly partner: string;
  readonly partnerId: string;
  readonly side: 'seller' | 'buyer';
  readonly seller: string;
  readonly buyer: string;
  readonly currency: string;
  readonly today: string;
  /** Both have signed its season shut: its payments are read, and none is recorded or answered any more. */
  readonly isSealed: boolean;
  /** Newest first. */
  readonly payments: readonly PaymentView[];
  readonly setOffs: readonly SetOffView[];
  readonly liens: readonly LienView[];
  /** Lenders whom a payment must name, and those of them that the agreement itself names. */
  readonly jointPayees: readonly string[];
  readonly agreedLenders: readonly string[];
  /** Oldest due date first. */
  readonly payable: readonly PayableDocument[];
  /** All that is due, and what the buyer has on account. */
  readonly due: string;
  readonly onAccount: string;
  readonly isOnAccount: boolean;
  readonly isInterestAgreed: boolean;
  readonly isAdvanceAgreed: boolean;
  /** What a payment that the bank gives back costs the buyer; null where nothing is agreed. */
  readonly returnedPaymentFee: string | null;
  /** Whether the caller's side issues the invoices. */
  readonly isIssuer: boolean;
}

/** Refuses `not-allowed`, `not-found`. */
export async function readPayments(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<AgreementPayments> {
  permit(context, 'read');
  const { partyId } = context.caller;
  return await context.store.forParty(partyId, async (tx) => {
    const [one] = await readPartnerMoney(tx, context, { agreementId });
    if (!one) throw new Error('Reading an agreement that is not there was not refused');
    const { frame, partner } = one;
    const { rows, standing, print, conditions, side } = frame;
    const answers = new Map(rows.answers.map((answer) => [answer.fact.payment, answer.fact]));
    const reversals = new Map(rows.reversals.map((reversal) => [reversal.fact.payment, reversal.fact]));
    const setOffAnswers = new Map(rows.setOffAnswers.map(({ fact }) => [fact.setOff, fact]));
    const ends = new Map(rows.lienEnds.map(({ fact }) => [fact.lien, fact]));
    const payable = standing.documents
      .filter(({ open, held }) => open - held > 0n)
      .sort((a, b) => compareText(a.dueOn, b.dueOn) || a.serial - b.serial);
    return {
      agreementId: frame.agreementId,
      agreement: frame.found.row.number,
      partner: partner.name,
      partnerId: partner.id,
      side,
      seller: frame.found.row.sellerName,
      buyer: frame.found.row.buyerName,
      currency: frame.money.currency,
      today: frame.today,
      isSealed: frame.found.row.isSealed,
      payments: rows.payments.toReversed().map(({ id, fact }): PaymentView => {
        const answer = answers.get(id);
        const back = reversals.get(id);
        return {
          paymentId: id,
          name: paymentName(fact),
          amount: fact.amount,
          paidOn: fact.paidOn,
          isPaidByUs: fact.payer === partyId,
          isRecordedByUs: fact.party === partyId,
          madeOutTo: fact.madeOutTo === 'jointly' ? 'jointly' : 'seller',
          pastLien: fact.pastLien,
          state: back ? 'returned' : ((answer?.answer as PaymentView['state'] | undefined) ?? 'recorded'),
          reason: back?.reason ?? answer?.reason ?? null,
          toAccount: back || fact.payer !== frame.buyerId ? '' : toAccount(frame, fact.amount, answer),
          returnedOn: back?.reversedOn ?? null,
          wanted: wantedSpread(frame, fact.spread),
          settles: settledParts(frame, answer?.allocated),
        };
      }),
      setOffs: rows.setOffs.toReversed().map(({ id, fact }) => ({
        setOffId: id,
        amount: fact.amount,
        reason: fact.reason,
        isOurs: fact.party === partyId,
        state: (setOffAnswers.get(id)?.answer as SetOffView['state'] | undefined) ?? 'open',
        answerReason: setOffAnswers.get(id)?.reason ?? null,
        wanted: wantedSpread(frame, fact.spread),
        settles: settledParts(frame, setOffAnswers.get(id)?.allocated),
      })),
      liens: rows.liens.map(({ id, fact }) => {
        const { lender, debtor, cropYear, county, receivedOn } = fact;
        return {
          ...{ lienId: id, lender, debtor, cropYear, county, receivedOn },
          conditions: fact.conditions,
          endedOn: ends.get(id)?.endedOn ?? null,
          endReason: ends.get(id)?.reason ?? null,
        };
      }),
      agreedLenders: (conditions.lienHolders ?? []).map(({ name }) => name),
      jointPayees: jointPayeesOf(conditions, rows),
      payable: payable.map((document) => payableDocument(frame, document)),
      due: print(payable.reduce((sum, { open, held }) => sum + open - held, 0n)),
      onAccount: print(standing.onAccount),
      isOnAccount: standing.onAccount > 0n,
      isInterestAgreed: conditions.payment?.interest !== undefined,
      isAdvanceAgreed: conditions.advance !== undefined,
      returnedPaymentFee: feeOf(frame),
      isIssuer: frame.issuer === side,
    };
  });
}

/** The amount less what it was allocated to. */
function toAccount(
  { money, print }: MoneyFrame,
  amount: string,
  answer: PaymentAnswerFact | undefined,
): string {
  if (answer?.answer !== 'confirmed') return '';
  const used = answer.allocated.reduce((sum, part) => sum + minorUnits(part.amount, money), 0n);
  const left = minorUnits(amount, money) - used;
  return left > 0n ? print(left) : '';
}

function feeOf({ conditions, money, print }: MoneyFrame): string | null {
  const fee = conditions.payment?.returnedPaymentFee;
  return fee === undefined ? null : print(roundToUnits(decimal(fee), money.decimals, money.rounding));
}

function settledParts(
  { rows }: MoneyFrame,
  allocated: readonly AllocationFact[] = [],
): readonly SettledPart[] {
  return allocated.map(({ document, amount, discount }) => ({
    documentId: document,
    name: documentNamed(rows, document),
    amount,
    discount,
  }));
}

function documentNamed({ documents }: MoneyFrame['rows'], documentId: string): string {
  const found = documents.find(({ id }) => id === documentId);
  return found ? nameOf(found.fact) : '';
}

function wantedSpread(frame: MoneyFrame, text: string): WantedSpread {
  const spread = storedSpread(text, frame);
  if (spread.kind !== 'as-said') return { kind: spread.kind, parts: [] };
  const parts = spread.parts.map(({ documentId, amount }) => ({
    name: documentNamed(frame.rows, documentId),
    amount: frame.print(amount),
  }));
  return { kind: spread.kind, parts };
}

function payableDocument(
  { today, print, conditions, money }: MoneyFrame,
  document: StandingDocument,
): PayableDocument {
  const rule = conditions.payment?.discount;
  const discount = earlyDiscount(document, { paidOn: today, discount: rule, money });
  return {
    documentId: document.id,
    name: documentName({ kind: document.kind, number: String(document.serial) }),
    dueOn: document.dueOn,
    daysLate: daysLate(document, today),
    due: print(document.open - document.held),
    held: document.held > 0n ? print(document.held) : '',
    discount: discount > 0n ? print(discount) : '',
    discountUntil: rule && discount > 0n ? daysAfter(document.issuedOn, Number(rule.withinDays)) : '',
  };
}
