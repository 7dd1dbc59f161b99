/**
 * What the rows about an agreement's money come to: which count, and how the money stands by them.
 */
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import type { DocumentKind } from '../../domain/money/money-document.ts';
import {
  type Allocated,
  carriedAway,
  type Recorded,
  type Standing,
  standingOf,
} from '../../domain/money/standing.ts';
import type { Money } from '../../domain/settlement/line.ts';
import type { AllocationFact } from '../../journal/money-facts.ts';
import type { MoneyRows } from '../../store/rows/money/all-money-rows.ts';
import type { HoldRow } from '../../store/rows/money/hold-rows.ts';
import type { LienNoticeRow } from '../../store/rows/money/lien-rows.ts';
import type { PaymentAnswerRow, PaymentRow } from '../../store/rows/money/payment-rows.ts';

/** Any row about money, whichever kind. */
export interface AnyMoneyRow {
  readonly agreementId: string;
  readonly recordedAt: string;
}

/** The rows that pass: those of one agreement, or those recorded by some day. */
export function someRows(rows: MoneyRows, passes: (row: AnyMoneyRow) => boolean): MoneyRows {
  return {
    documents: rows.documents.filter(passes),
    payments: rows.payments.filter(passes),
    answers: rows.answers.filter(passes),
    reversals: rows.reversals.filter(passes),
    holds: rows.holds.filter(passes),
    holdEnds: rows.holdEnds.filter(passes),
    setOffs: rows.setOffs.filter(passes),
    setOffAnswers: rows.setOffAnswers.filter(passes),
    liens: rows.liens.filter(passes),
    lienEnds: rows.lienEnds.filter(passes),
    broughtForward: rows.broughtForward.filter(passes),
    carriedLenders: rows.carriedLenders.filter(passes),
  };
}

/** What a stored allocation settles, in minor units. */
export function allocatedOf(facts: readonly AllocationFact[], money: Money): readonly Allocated[] {
  return facts.map(({ document, amount, discount }) => ({
    documentId: document,
    amount: minorUnits(amount, money),
    discount: minorUnits(discount, money),
  }));
}

/** The same as it is stored; `print` writes an amount with the currency's decimals. */
export function allocationFacts(
  allocated: readonly Allocated[],
  print: (amount: bigint) => string,
): readonly AllocationFact[] {
  return allocated.map(({ documentId, amount, discount }) => ({
    document: documentId,
    amount: print(amount),
    discount: print(discount),
  }));
}

/** A payment that counts: confirmed, and not given back by the bank. */
export interface CountedPayment {
  readonly payment: PaymentRow;
  readonly answer: PaymentAnswerRow;
}

export function countedPayments({ payments, answers, reversals }: MoneyRows): readonly CountedPayment[] {
  const byId = new Map(payments.map((payment) => [payment.id, payment]));
  const back = new Set(reversals.map(({ fact }) => fact.payment));
  return answers.flatMap((answer): CountedPayment[] => {
    const payment = byId.get(answer.fact.payment);
    const counts = answer.fact.answer === 'confirmed' && !back.has(answer.fact.payment);
    return payment && counts ? [{ payment, answer }] : [];
  });
}

/** A payment's amount in minor units: below zero where the seller gives money back. */
export function signedAmount(
  { fact }: Pick<PaymentRow, 'fact'>,
  { money, sellerId }: { readonly money: Money; readonly sellerId: string },
): bigint {
  const amount = minorUnits(fact.amount, money);
  return fact.payer === sellerId ? -amount : amount;
}

/** What is held still; what a season held whose balance was brought forward is held there. */
export function liveHolds({
  holds,
  holdEnds,
  broughtForward,
}: Pick<MoneyRows, 'holds' | 'holdEnds' | 'broughtForward'>): readonly HoldRow[] {
  const ended = new Set(holdEnds.map(({ fact }) => fact.hold));
  const gone = new Set(broughtForward.map(({ agreementId }) => agreementId));
  return holds.filter(({ id, agreementId }) => !ended.has(id) && !gone.has(agreementId));
}

export function liveLiens({
  liens,
  lienEnds,
}: Pick<MoneyRows, 'liens' | 'lienEnds'>): readonly LienNoticeRow[] {
  const ended = new Set(lienEnds.map(({ fact }) => fact.lien));
  return liens.filter(({ id }) => !ended.has(id));
}

/** The money of one agreement, as its rows have it. */
export interface MoneyOf {
  readonly money: Money;
  readonly sellerId: string;
  /** The local date of a moment (ISO 8601). */
  readonly dayOf: (moment: string) => LocalDate;
}

/** How the money of one agreement stands by its rows; all of it is settled where its balance was brought forward. */
export function standingBy(rows: MoneyRows, of: MoneyOf): Standing {
  const standing = standingOf(recordedMoney(rows, of));
  return rows.broughtForward.length === 0 ? standing : carriedAway(standing);
}

function recordedMoney(rows: MoneyRows, { money, sellerId, dayOf }: MoneyOf): Recorded {
  return {
    documents: rows.documents.map(({ id, fact }) => ({
      id,
      kind: fact.kind as DocumentKind,
      serial: Number(fact.serial),
      issuedOn: fact.issuedOn as LocalDate,
      dueOn: fact.dueOn as LocalDate,
      payable: minorUnits(fact.payable, money),
      correctsId: fact.corrects,
    })),
    payments: countedPayments(rows).map(({ payment, answer }) => ({
      paidOn: payment.fact.paidOn as LocalDate,
      amount: signedAmount(payment, { money, sellerId }),
      allocated: allocatedOf(answer.fact.allocated, money),
    })),
    credits: new Map(
      rows.documents
        .filter(({ fact }) => fact.allocated.length > 0)
        .map(({ id, fact }) => [id, allocatedOf(fact.allocated, money)]),
    ),
    setOffs: rows.setOffAnswers
      .filter(({ fact }) => fact.answer === 'confirmed')
      .map(({ recordedAt, fact }) => ({
        on: dayOf(recordedAt),
        allocated: allocatedOf(fact.allocated, money),
      })),
    holds: liveHolds(rows).map(({ fact }) => ({
      documentId: fact.document,
      amount: minorUnits(fact.amount, money),
    })),
  };
}
