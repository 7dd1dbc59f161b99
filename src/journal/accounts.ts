/**
 * The accounts of an agreement and what each kind of fact posts to them. Feed is counted in the scale's unit, money in
 * the agreement's currency; every posting has its counterpart, so each unit sums to nothing.
 */

export const ACCOUNTS = [
  /** Where feed comes from: below zero by all that was delivered. */
  'feed-delivered',
  /** Delivered, and neither settled nor refused yet. */
  'feed-waiting',
  'feed-settled',
  'feed-refused',
  /** Settled and on no invoice yet: what the buyer owes the seller for it; below zero, what the seller owes. */
  'buyer-owes-seller',
  /** The counterpart of what is owed: what the feed was worth. */
  'worth-of-feed',
  /** Open on invoices, notes and advances, and due by their dates. */
  'invoices',
  /** Open too, and questioned: not due until the question is decided. */
  'held',
  /** Below zero by what the buyer has paid, or was credited, beyond its invoices. */
  'on-account',
  /** Below zero by what was invoiced ahead of settlement. */
  'advances',
  /** All that the buyer has paid, less what was given back. */
  'paid',
  'deductions',
  'discounts',
  'interest',
  'fees',
  /** What the agreed rules about volume and the season's average come to, and what both agreed on for an earlier season. */
  'adjustments',
  /** The counterpart of what was brought forward from a sealed season, whose own journal takes no entry. */
  'carried',
] as const;
export type Account = (typeof ACCOUNTS)[number];

/** The accounts that a statement is about: together, what the buyer owes by what was invoiced and paid. */
export const STATEMENT_ACCOUNTS = ['invoices', 'held', 'on-account'] as const satisfies readonly Account[];

export interface Posting {
  readonly account: Account;
  /** A unit of weight, or a currency. */
  readonly unit: string;
  /** A decimal string. */
  readonly amount: string;
}

/** A weight in the unit of its scale: "47120", "lb". */
export interface ScaleWeight {
  readonly weight: string;
  readonly unit: string;
}

/** A delivery of 47120 lb: feed-waiting +47120, feed-delivered −47120. */
export function deliveryPostings({ weight, unit }: ScaleWeight): Posting[] {
  return moved({ from: 'feed-delivered', to: 'feed-waiting', amount: weight, unit });
}

/** A settlement moves the feed to feed-settled, and its total to what the buyer owes the seller. */
export function settlementPostings(
  net: ScaleWeight,
  { amount, currency }: { readonly amount: string; readonly currency: string },
): Posting[] {
  return [
    ...moved({ from: 'feed-waiting', to: 'feed-settled', amount: net.weight, unit: net.unit }),
    ...moved({ from: 'worth-of-feed', to: 'buyer-owes-seller', amount, unit: currency }),
  ];
}

/** A refusal moves the feed to feed-refused; nothing is owed. */
export function refusalPostings({ weight, unit }: ScaleWeight): Posting[] {
  return moved({ from: 'feed-waiting', to: 'feed-refused', amount: weight, unit });
}

/** What takes back postings that were made before: each with its sign turned. */
export function reversedPostings(postings: readonly Posting[]): Posting[] {
  return postings.map(({ account, unit, amount }) => ({ account, unit, amount: turned(amount) }));
}

function moved(move: {
  readonly from: Account;
  readonly to: Account;
  readonly amount: string;
  readonly unit: string;
}): Posting[] {
  const { from, to, amount, unit } = move;
  return [
    { account: to, unit, amount },
    { account: from, unit, amount: turned(amount) },
  ];
}

/** The amount with its sign turned; zero has none. */
function turned(amount: string): string {
  if (!/[1-9]/.test(amount)) return amount;
  return amount.startsWith('-') ? amount.slice(1) : `-${amount}`;
}
