/**
 * What the journal remembers of rows about money: invoices and notes, payments, holds, set-offs and liens. As in
 * `facts.ts`, these shapes are frozen once entries exist.
 */

export interface AllocationFact {
  readonly document: string;
  readonly amount: string;
  readonly discount: string;
}

export interface DocumentLoadFact {
  readonly load: string;
  readonly settlement: string | null;
  readonly goods: string;
  readonly deductions: string;
  readonly advance: string;
}

export interface DocumentFact {
  readonly seller: string;
  readonly serial: string;
  readonly kind: string;
  readonly issuedOn: string;
  readonly dueOn: string;
  readonly currency: string;
  readonly payable: string;
  readonly corrects: string | null;
  /** SHA-256 of all that is printed on it. */
  readonly fingerprint: string;
  /** In their places. */
  readonly loads: readonly DocumentLoadFact[];
  /** Other documents that it lowers. */
  readonly allocated: readonly AllocationFact[];
  // Of a note about a season as a whole; absent on others, so that older entries stay as they are.
  readonly seasonRule?: string;
  /** The sealed season that it takes up. */
  readonly ofAgreement?: string;
}

export interface PaymentFact {
  readonly payer: string;
  readonly party: string;
  readonly amount: string;
  readonly currency: string;
  readonly paidOn: string;
  readonly method: string;
  readonly reference: string | null;
  readonly spread: string;
  readonly madeOutTo: string;
  readonly pastLien: string | null;
}

export interface PaymentAnswerFact {
  readonly payment: string;
  readonly answer: string;
  readonly reason: string | null;
  readonly party: string;
  readonly allocated: readonly AllocationFact[];
}

export interface PaymentReversalFact {
  readonly payment: string;
  readonly reversedOn: string;
  readonly reason: string;
  readonly party: string;
}

export interface HoldFact {
  readonly document: string;
  readonly load: string | null;
  readonly amount: string;
  readonly reason: string;
  readonly party: string;
  readonly correction: string | null;
  /** The question that it waits for, where there is one. */
  readonly retest?: string;
  /** The hold of a sealed season that it carries on. */
  readonly carriedFrom?: string;
}

export interface HoldEndFact {
  readonly hold: string;
  readonly ending: string;
  readonly party: string;
}

export interface SetOffFact {
  readonly amount: string;
  readonly currency: string;
  readonly spread: string;
  readonly reason: string;
  readonly party: string;
}

export interface SetOffAnswerFact {
  readonly setOff: string;
  readonly answer: string;
  readonly reason: string | null;
  readonly party: string;
  readonly allocated: readonly AllocationFact[];
}

export interface LienNoticeFact {
  readonly lender: string;
  readonly debtor: string;
  readonly cropYear: string;
  readonly county: string;
  readonly conditions: string;
  readonly receivedOn: string;
  readonly party: string;
}

export interface LienEndFact {
  readonly lien: string;
  readonly endedOn: string;
  readonly reason: string;
  readonly party: string;
}

export interface MoneyFactsByKind {
  readonly document: DocumentFact;
  readonly payment: PaymentFact;
  readonly 'payment-answer': PaymentAnswerFact;
  readonly 'payment-reversal': PaymentReversalFact;
  readonly hold: HoldFact;
  readonly 'hold-end': HoldEndFact;
  readonly 'set-off': SetOffFact;
  readonly 'set-off-answer': SetOffAnswerFact;
  readonly 'lien-notice': LienNoticeFact;
  readonly 'lien-end': LienEndFact;
}
