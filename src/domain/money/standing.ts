/**
 * How the money between the two parties of an agreement stands: every document with what is open and held of it, and the
 * money on account. Worked out from what was recorded and nothing else, in whole minor units.
 */
import type { LocalDate } from '../dates/local-date.ts';
import type { DocumentKind } from './money-document.ts';

export interface IssuedDocument {
  readonly id: string;
  readonly kind: DocumentKind;
  readonly serial: number;
  readonly issuedOn: LocalDate;
  readonly dueOn: LocalDate;
  /** Below zero, it lowers what is owed. */
  readonly payable: bigint;
  readonly correctsId: string | null;
}

/** What of a document is settled by something else. */
export interface Allocated {
  readonly documentId: string;
  readonly amount: bigint;
  /** Earned by paying early, and settled beside the amount. */
  readonly discount: bigint;
}

/** Money that counts: a confirmed payment that the bank did not give back. */
export interface PaidMoney {
  readonly paidOn: LocalDate;
  /** Above zero from the buyer; below, the seller gives money back. */
  readonly amount: bigint;
  readonly allocated: readonly Allocated[];
}

export interface Recorded {
  readonly documents: readonly IssuedDocument[];
  readonly payments: readonly PaidMoney[];
  /** Of credit notes, by the note's id. */
  readonly credits: ReadonlyMap<string, readonly Allocated[]>;
  /** That both sides agreed on. */
  readonly setOffs: readonly { readonly on: LocalDate; readonly allocated: readonly Allocated[] }[];
  /** That have not ended. */
  readonly holds: readonly { readonly documentId: string; readonly amount: bigint }[];
}

export interface StandingDocument extends IssuedDocument {
  /** What is open still, what is held included; 0 for what lowers the debt. */
  readonly open: bigint;
  /** The part of it that is questioned, at most what is open. */
  readonly held: bigint;
  /** Settled by credit notes: never owed at all. */
  readonly credited: bigint;
}

export interface Standing {
  /** In order of number. */
  readonly documents: readonly StandingDocument[];
  /** What the buyer has paid, or was credited, beyond its documents; below zero, it owes that. */
  readonly onAccount: bigint;
  /** What the buyer owes in all: everything open less what is on account. */
  readonly balance: bigint;
}

export function standingOf(recorded: Recorded): Standing {
  const settled = new Map<string, bigint>();
  const credited = new Map<string, bigint>();
  const held = new Map<string, bigint>();
  let onAccount = 0n;
  for (const { amount, allocated } of recorded.payments) {
    onAccount += amount - take(allocated, settled);
  }
  for (const { allocated } of recorded.setOffs) onAccount -= take(allocated, settled);
  for (const [, allocated] of recorded.credits) {
    onAccount -= take(allocated, settled);
    for (const { documentId, amount } of allocated) raise(credited, documentId, amount);
  }
  for (const { documentId, amount } of recorded.holds) raise(held, documentId, amount);
  const documents = recorded.documents.map((document): StandingDocument => {
    if (document.payable < 0n) {
      onAccount -= document.payable;
      return { ...document, open: 0n, held: 0n, credited: 0n };
    }
    const open = document.payable - (settled.get(document.id) ?? 0n);
    const questioned = held.get(document.id) ?? 0n;
    return {
      ...document,
      open,
      held: questioned > open ? open : questioned,
      credited: credited.get(document.id) ?? 0n,
    };
  });
  const balance = documents.reduce((sum, { open }) => sum + open, 0n) - onAccount;
  return { documents: documents.sort((a, b) => a.serial - b.serial), onAccount, balance };
}

/** A sealed season once its balance stands in another agreement: nothing is open in it, and nothing on account. */
export function carriedAway({ documents }: Standing): Standing {
  return {
    documents: documents.map((document) => ({ ...document, open: 0n, held: 0n })),
    onAccount: 0n,
    balance: 0n,
  };
}

/** Notes what is allocated, and returns how much money it took. */
function take(allocated: readonly Allocated[], settled: Map<string, bigint>): bigint {
  let money = 0n;
  for (const { documentId, amount, discount } of allocated) {
    raise(settled, documentId, amount + discount);
    money += amount;
  }
  return money;
}

function raise(sums: Map<string, bigint>, key: string, by: bigint): void {
  sums.set(key, (sums.get(key) ?? 0n) + by);
}
