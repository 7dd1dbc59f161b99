/**
 * What happened to the money of one agreement, as a statement tells it: each document, payment, discount and payment that
 * came back, in the order in which they were recorded.
 */
import { minorUnits } from '../../domain/money/minor-units.ts';
import { DOCUMENT_NAMES, type DocumentKind, documentName } from '../../domain/money/money-document.ts';
import type { AllocationFact, DocumentFact } from '../../journal/money-facts.ts';
import type { MoneyRows } from '../../store/rows/money/all-money-rows.ts';
import type { PaymentRow } from '../../store/rows/money/payment-rows.ts';
import { allocatedOf, type MoneyOf, signedAmount } from './money-rows.ts';
import { paymentName } from './payment-name.ts';

export interface MoneyEvent {
  /** ISO 8601, UTC. */
  readonly recordedAt: string;
  readonly name: string;
  readonly detail: string;
  /** What the buyer owes more by it, in minor units. */
  readonly change: bigint;
}

/** All that changed what the buyer owes, the first recorded first. */
export function moneyEvents(rows: MoneyRows, of: MoneyOf): readonly MoneyEvent[] {
  const documents = new Map(rows.documents.map(({ id, fact }) => [id, fact]));
  const payments = new Map(rows.payments.map((payment) => [payment.id, payment]));
  const counted = rows.answers.filter(({ fact }) => fact.answer === 'confirmed');
  const ofPayment = (id: string): PaymentRow => {
    const payment = payments.get(id);
    if (!payment) throw new Error('A payment was answered that is not there');
    return payment;
  };
  const events: MoneyEvent[] = [
    ...counted.flatMap(({ recordedAt, fact }) =>
      paymentEvents(ofPayment(fact.payment), { recordedAt, allocated: fact.allocated, documents, of }),
    ),
    ...rows.reversals.flatMap(({ recordedAt, fact }): MoneyEvent[] => {
      const payment = ofPayment(fact.payment);
      const answer = counted.find((row) => row.fact.payment === fact.payment);
      const saved = allocatedOf(answer?.fact.allocated ?? [], of.money).reduce(
        (sum, { discount }) => sum + discount,
        0n,
      );
      const detail = `given back by the bank on ${fact.reversedOn}: ${fact.reason}`;
      const name = `${paymentName(payment.fact)} taken back`;
      return [
        { recordedAt, name, detail, change: signedAmount(payment, of) },
        ...(saved > 0n
          ? [
              {
                recordedAt,
                name: 'Discount taken back',
                detail: 'with the payment that earned it',
                change: saved,
              },
            ]
          : []),
      ];
    }),
    // Of one moment, the payment that came back is told before the fee that it costs.
    ...rows.documents.map(({ recordedAt, fact }) => ({
      recordedAt,
      name: nameOf(fact),
      detail: documentDetail(fact, documents),
      change: minorUnits(fact.payable, of.money),
    })),
  ];
  return events.sort((a, b) => (a.recordedAt < b.recordedAt ? -1 : a.recordedAt > b.recordedAt ? 1 : 0));
}

function paymentEvents(
  payment: PaymentRow,
  known: {
    readonly recordedAt: string;
    readonly allocated: readonly AllocationFact[];
    readonly documents: ReadonlyMap<string, DocumentFact>;
    readonly of: MoneyOf;
  },
): MoneyEvent[] {
  const { recordedAt, allocated, documents, of } = known;
  const settled = allocatedOf(allocated, of.money);
  const saved = settled.reduce((sum, { discount }) => sum + discount, 0n);
  const amount = signedAmount(payment, of);
  const named = allocated.flatMap(({ document }) => {
    const fact = documents.get(document);
    return fact ? [nameOf(fact)] : [];
  });
  const use =
    amount < 0n ? 'from what was on account' : named.length === 0 ? 'on account' : `for ${told(named)}`;
  const events: MoneyEvent[] = [
    {
      recordedAt,
      name: amount < 0n ? `${paymentName(payment.fact)}, paid back` : paymentName(payment.fact),
      detail: `paid on ${payment.fact.paidOn}, ${use}`,
      change: -amount,
    },
  ];
  if (saved > 0n) {
    events.push({
      recordedAt,
      name: 'Discount for paying early',
      detail: `on ${told(named)}`,
      change: -saved,
    });
  }
  return events;
}

/** As many as a line holds. */
const MOST_NAMED = 3;

function told(names: readonly string[]): string {
  const shown = names.slice(0, MOST_NAMED).join(', ');
  return names.length > MOST_NAMED ? `${shown} and ${names.length - MOST_NAMED} more` : shown;
}

export function nameOf({ kind, serial }: Pick<DocumentFact, 'kind' | 'serial'>): string {
  return documentName({ kind: kind as DocumentKind, number: serial });
}

function documentDetail(fact: DocumentFact, documents: ReadonlyMap<string, DocumentFact>): string {
  const corrected = fact.corrects === null ? undefined : documents.get(fact.corrects);
  const about = corrected
    ? `for ${DOCUMENT_NAMES[corrected.kind as DocumentKind].toLowerCase()} ${corrected.serial}`
    : '';
  const loads =
    fact.loads.length === 0 ? '' : fact.loads.length === 1 ? '1 load' : `${fact.loads.length} loads`;
  const due = fact.payable.startsWith('-') ? '' : `due ${fact.dueOn}`;
  return [about, loads, due].filter((part) => part !== '').join(', ');
}
