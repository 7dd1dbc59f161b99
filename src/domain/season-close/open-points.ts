/**
 * What stands in the way of closing a season: what has to be answered first, and what both sides may carry over.
 */

/** Those that somebody has to answer or issue before anything is signed, then those that may be carried over. */
export const OPEN_POINT_KINDS = [
  'weighing',
  'proposal',
  'correction',
  'payment',
  'set-off',
  'difference',
  'past-season',
  'not-invoiced',
  'question',
  'held',
  'unsettled',
  'advance',
  'adjustment',
  'interest',
  'balance',
] as const;
export type OpenPointKind = (typeof OPEN_POINT_KINDS)[number];

const CARRIED: readonly OpenPointKind[] = [
  'question',
  'held',
  'unsettled',
  'advance',
  'adjustment',
  'interest',
  'balance',
];

export interface OpenPoint {
  readonly kind: OpenPointKind;
  /** How many, where they are counted. */
  readonly count: number;
  /** A decimal string, above zero where the buyer owes; null where it is about no money. */
  readonly amount: string | null;
  /** Why it waits, in words, where that is known. */
  readonly why?: string;
}

/** Whether both sides may sign with it and carry it over. */
export function mayBeCarried({ kind }: Pick<OpenPoint, 'kind'>): boolean {
  return CARRIED.includes(kind);
}

export interface PointWords {
  readonly seller: string;
  readonly buyer: string;
  /** Writes an amount, above zero, with its currency. */
  readonly money: (amount: string) => string;
}

/** A point in words: "3 loads have not settled". */
export function pointInWords(
  { kind, count, amount, why }: OpenPoint,
  { seller, buyer, money }: PointWords,
): string {
  const many = (one: string, more: string) => (count === 1 ? `One ${one}` : `${count} ${more}`);
  switch (kind) {
    case 'weighing':
      return many('truck was weighed full and not empty', 'trucks were weighed full and not empty');
    case 'proposal':
      return 'A change of the agreement, or its early end, is proposed and not answered';
    case 'correction':
      return many('correction or allowance is not answered', 'corrections or allowances are not answered');
    case 'question':
      return many('question is open', 'questions are open');
    case 'payment':
      return many('payment is not answered', 'payments are not answered');
    case 'set-off':
      return many('use of money on account is not answered', 'uses of money on account are not answered');
    case 'not-invoiced':
      return many('load has settled and is not invoiced', 'loads have settled and are not invoiced');
    case 'difference':
      return many('difference is noted and not answered', 'differences are noted and not answered');
    case 'past-season':
      return many(
        'proposal for a sealed season is not answered',
        'proposals for sealed seasons are not answered',
      );
    case 'held':
      return `${many('amount is held', 'amounts are held')}: ${money(amount ?? '0')}`;
    case 'advance':
      return `${many('load that has not settled has', 'loads that have not settled have')} an advance: ${money(amount ?? '0')}`;
    case 'unsettled':
      return many('load has not settled', 'loads have not settled');
    case 'adjustment':
      if (amount !== null && !/[1-9]/.test(amount)) {
        return `${many('note', 'notes')} by the agreed rules for the season ${count === 1 ? 'is' : 'are'} not issued; together they come to nothing`;
      }
      return amount === null
        ? `${many('agreed rule', 'agreed rules')} for the season cannot be worked out yet${why === undefined ? '' : `: ${why}`}`
        : `${owing(amount, { seller, buyer, money })} by the agreed rules for the season, on no note yet`;
    case 'interest':
      return amount?.startsWith('-')
        ? `Interest of ${money(amount.slice(1))} was charged too much, and is not given back`
        : `Interest of ${money(amount ?? '0')} is not charged yet`;
    case 'balance':
      return owing(amount ?? '0', { seller, buyer, money });
  }
}

function owing(amount: string, { seller, buyer, money }: PointWords): string {
  return amount.startsWith('-')
    ? `${seller} owes ${money(amount.slice(1))}`
    : `${buyer} owes ${money(amount)}`;
}
