/**
 * A statement as it is shown and printed: what one party and another owe each other over a period, in one currency.
 * It is told for one reader: an amount above zero is owed to the reader. The other party's statement has every sign turned.
 */
import type { DocumentKind } from './money-document.ts';

/** One change of what is owed. */
export interface StatementEntry {
  /** Local date on which it was recorded. */
  readonly on: string;
  /** The agreement's number. */
  readonly agreement: string;
  /** "Invoice 17", "Payment, check 1043". */
  readonly name: string;
  /** In a sentence, where there is more to say: "paid on 2026-10-02", "bounced: no funds". */
  readonly detail: string;
  readonly amount: string;
  /** After this entry. */
  readonly balance: string;
}

/** A document that is not settled in full, or money on account. */
export interface OpenItem {
  readonly agreement: string;
  /** Null for money on account. */
  readonly kind: DocumentKind | null;
  readonly name: string;
  readonly issuedOn: string | null;
  readonly dueOn: string | null;
  /** As first issued. */
  readonly amount: string;
  /** Open still, what is held included. */
  readonly open: string;
  /** The part that is questioned and not due. */
  readonly held: string;
  /** Days past due at the statement's end; 0 where not. */
  readonly daysLate: number;
}

export interface HeldAmount {
  readonly agreement: string;
  /** "Invoice 17". */
  readonly document: string;
  /** Null where it is about no single load. */
  readonly ticket: string | null;
  readonly amount: string;
  readonly since: string;
  /** Who questions it, by name. */
  readonly by: string;
  readonly reason: string;
}

/** Deliveries of one agreement that are on no invoice yet. */
export interface NotInvoiced {
  readonly agreement: string;
  /** Settled, to be invoiced. */
  readonly settledLoads: number;
  readonly settled: string;
  /** Without a result or price yet. */
  readonly unpricedLoads: number;
  /** Of those, how many could be valued, and what they are thought to come to. */
  readonly valuedLoads: number;
  readonly provisional: string;
  /** Advances invoiced for loads that are not settled yet. */
  readonly advances: string;
}

export interface LienNamed {
  readonly agreement: string;
  readonly lender: string;
  /** What the notice says of payment. */
  readonly conditions: string;
}

/** What is due, by how late it is; each of these sums is above zero where it is owed to the reader. */
export interface Ageing {
  readonly notDue: string;
  readonly days1to30: string;
  readonly days31to60: string;
  readonly days61to90: string;
  readonly over90: string;
  readonly held: string;
  /** Paid and not used yet: against whoever is owed. */
  readonly onAccount: string;
  /** The closing balance. */
  readonly total: string;
}

export interface Statement {
  /** The reader and the other party, by name. */
  readonly of: string;
  readonly with: string;
  /** Numbers of the agreements that it covers. */
  readonly agreements: readonly string[];
  readonly currency: string;
  /** Both days belong to it. */
  readonly from: string;
  readonly to: string;
  readonly opening: string;
  readonly entries: readonly StatementEntry[];
  readonly closing: string;
  readonly ageing: Ageing;
  readonly open: readonly OpenItem[];
  readonly held: readonly HeldAmount[];
  /** As it stands today; empty in a statement of a past period. */
  readonly notInvoiced: readonly NotInvoiced[];
  readonly liens: readonly LienNamed[];
}
