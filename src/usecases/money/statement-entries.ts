/**
 * What happened to the money of one agreement, as a statement tells it: each document, payment, discount and payment that
 * came back, in the order in which they were recorded.
 */
import { minorUnits } from '../../domain/money/minor-units.ts';
import {
  DOCUMENT_NAMES,
  type DocumentKind,
  documentName,
  isSeasonRule,
  SEASON_RULE_WORDS,
} from '../../domain/money/money-document.ts';
import type { AllocationFact, DocumentFact } from '../../journal/money-facts.ts';
import type { MoneyRows } from '../../store/rows/money/all-money-rows.ts';
import type { PaymentRow } from '../../store/rows/money/payment-rows.ts';
import { allocatedOf, type MoneyOf, signedAmount } from './money-rows.ts';
import { paymentName } from './payment-name.ts';

export interface MoneyEvent {
  /** ISO 8601, UTC. */
  readonly recordedAt: string;
  /** Of the row that it comes from: ids grow as rows are recorded, which orders those of one moment. */
  readonly id: string;
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
    ...rows.documents.map(({ recordedAt, id, fact }) => ({
      recordedAt,
      id,
      name: nameOf(fact),
      detail: documentDetail(fact, documents),
      change: minorUnits(fact.payable, of.money),
    })),
    ...counted.flatMap(({ recordedAt, id, fact }) =>
      paymentEvents(ofPayment(fact.payment), { recordedAt, id, allocated: fact.allocated, documents, of }),
    ),
    ...rows.reversals.flatMap(({ recordedAt, id, fact }): MoneyEvent[] => {
      const payment = ofPayment(fact.payment);
      const answer = counted.find((row) => row.fact.payment === fact.payment);
      const saved = allocatedOf(answer?.fact.allocated ?? [], of.money).reduce(
        (sum, { discount }) => sum + discount,
        0n,
      );
      const detail = `given back by the bank on ${fact.reversedOn}: ${fact.reason}`;
      const name = `${paymentName(payment.fact)} taken back`;
      return [
        { recordedAt, id, name, detail, change: signedAmount(payment, of) },
        ...(saved > 0n
          ? [
              {
                recordedAt,
                id,
                name: 'Discount taken back',
                detail: 'with the payment that earned it',
                change: saved,
              },
            ]
          : []),
      ];
    }),
    ...rows.broughtForward.map(({ recordedAt, id, into, amount }) => ({
      recordedAt,
      id,
      name: `Carried over to agreement ${into}`,
      detail: 'the season is sealed, and its balance stands there',
      change: -minorUnits(amount, of.money),
    })),
  ];
  return events.sort((a, b) => compareText(`${a.recordedAt} ${a.id}`, `${b.recordedAt} ${b.id}`));
}

/** Below zero where a text comes before another. */
export function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function paymentEvents(
  payment: PaymentRow,
  known: {
    readonly recordedAt: string;
    readonly id: string;
    readonly allocated: readonly AllocationFact[];
    readonly documents: ReadonlyMap<string, DocumentFact>;
    readonly of: MoneyOf;
  },
): MoneyEvent[] {
  const { recordedAt, id, allocated, documents, of } = known;
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
      id,
      name: amount < 0n ? `${paymentName(payment.fact)}, paid back` : paymentName(payment.fact),
      detail: `paid on ${payment.fact.paidOn}, ${use}`,
      change: -amount,
    },
  ];
  if (saved > 0n) {
    events.push({
      recordedAt,
      id,
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
  const season = isSeasonRule(fact.seasonRule) ? SEASON_RULE_WORDS[fact.seasonRule] : '';
  return [about, season, loads, due].filter((part) => part !== '').join(', ');
}
