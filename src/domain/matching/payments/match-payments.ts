/**
 * Matches a list of payments with another. First by the reference together with the amount or the day, then what is left
 * by amount and day at the least cost of all; then a sum with the two payments that it is.
 */
import { MOST_OF_ONE_NUMBER } from '../by-ticket.ts';
import { inOwnOrder, type ListSide, otherSide } from '../list-row.ts';
import { ALONE } from '../pair-cost.ts';
import { type Bounds, pairUp, type RowPair } from '../pair-up.ts';
import { nearestFirst, turnedDay } from './payment-causes.ts';
import { MOST_DAYS, type PaymentLikening, paymentCost } from './payment-cost.ts';
import { type PaymentDifference, paymentDifferences } from './payment-differences.ts';
import { type PaymentListRow, type ReadPayment, readPayments, rowsBy } from './payment-list-row.ts';
import { aloneBy, sumPairs } from './payment-sums.ts';

/** Thousands of payments that share their days; more are told to be too many. */
export const PAYMENT_BOUNDS: Bounds = { pairs: 2_000_000, steps: 50_000_000 };

/** How a row ends. Every row of both lists is in exactly one. */
export type PaymentOutcome =
  | {
      readonly kind: 'pair';
      readonly mine: PaymentListRow;
      readonly record: PaymentListRow;
      readonly by: 'reference' | 'likeness' | 'sum';
      /** None where the two agree. */
      readonly differences: readonly PaymentDifference[];
    }
  | {
      readonly kind: 'only';
      readonly in: ListSide;
      readonly row: PaymentListRow;
      /** Too many payments were alike, so that nobody looked for its partner to the end. */
      readonly isUndecided: boolean;
      /** The id of the other list's row whose sum most likely holds it. */
      readonly isWithin: string | null;
    }
  | { readonly kind: 'twice'; readonly in: ListSide; readonly row: PaymentListRow; readonly of: string };

export type PaymentPair = Extract<PaymentOutcome, { kind: 'pair' }>;

export interface PaymentSettings {
  /** Decimals of the currency's minor unit. */
  readonly decimals: number;
  readonly bounds?: Bounds;
}

/**
 * The outcomes: pairs and rows only in mine or twice there in the order of mine, then what is left of the record in its
 * order. Which there are hangs on neither order; exchanging the lists exchanges the sides of each.
 */
export function matchPayments(
  lists: { readonly mine: readonly PaymentListRow[]; readonly record: readonly PaymentListRow[] },
  { decimals, bounds = PAYMENT_BOUNDS }: PaymentSettings,
): PaymentOutcome[] {
  const mine = readPayments(lists.mine, { side: 'mine', decimals });
  const record = readPayments(lists.record, { side: 'record', decimals });
  const partners = new Map<ReadPayment, { readonly row: ReadPayment; readonly by: PaymentPair['by'] }>();
  const add = (pairs: readonly RowPair<ReadPayment>[], by: PaymentPair['by']) => {
    for (const [a, b] of pairs) partners.set(a, { row: b, by }).set(b, { row: a, by });
  };
  const isLeft = (row: ReadPayment) => !partners.has(row);

  const { pairs, likening } = pairByReference({ mine, record }, bounds);
  add(pairs, 'reference');
  const { referenceOf } = likening;
  const looking = {
    mine: withoutRepeats(mine, { isLeft, referenceOf }),
    record: withoutRepeats(record, { isLeft, referenceOf }),
  };
  const likely = pairUp({
    ...looking,
    cost: (a, b) => paymentCost(a, b, likening),
    near: nearIn(looking.record, referenceOf),
    alone: ALONE,
    bounds,
  });
  const undecided = new Set(likely ? [] : [...looking.mine, ...looking.record]);
  add(likely ?? [], 'likeness');

  const doubles = new Map([mine, record].flatMap((rows) => [...repeats(rows, { isLeft, referenceOf })]));
  const isAlone = (row: ReadPayment) => isLeft(row) && !doubles.has(row) && !undecided.has(row);
  add(sumPairs({ mine: mine.filter(isAlone), record: record.filter(isAlone) }), 'sum');

  const { differences: paired, within } = explained(
    mine.flatMap((row) => {
      const partner = partners.get(row)?.row;
      return partner ? [{ mine: row, record: partner }] : [];
    }),
    { decimals, alone: [...mine, ...record].filter(isAlone) },
  );
  return [...mine, ...record].flatMap((row): PaymentOutcome[] => {
    const { side } = row;
    const partner = partners.get(row);
    const of = doubles.get(row);
    if (partner) {
      if (side === 'record') return [];
      const differences = paired.get(row) ?? [];
      return [{ kind: 'pair', mine: row.row, record: partner.row.row, by: partner.by, differences }];
    }
    if (of) return [{ kind: 'twice', in: side, row: row.row, of: of.row.id }];
    const isWithin = within.get(`${side} ${row.row.id}`) ?? null;
    return [{ kind: 'only', in: side, row: row.row, isUndecided: undecided.has(row), isWithin }];
  });
}

interface Explained {
  readonly differences: ReadonlyMap<ReadPayment, readonly PaymentDifference[]>;
  /** By side and id of a payment without a partner: the row whose sum holds it. */
  readonly within: ReadonlyMap<string, string>;
}

/** The differences of pairs by their row of mine. A payment that would be within several sums is within none. */
function explained(
  pairs: readonly Sides[],
  { decimals, alone }: { readonly decimals: number; readonly alone: readonly ReadPayment[] },
): Explained {
  const named = ({ side, row }: ReadPayment) => `${side} ${row.id}`;
  const tell = (rows: readonly ReadPayment[]) => {
    const aloneWith = aloneBy(rows);
    return new Map(pairs.map((sides) => [sides.mine, paymentDifferences(sides, { decimals, aloneWith })]));
  };
  const claimsIn = (told: ReturnType<typeof tell>) => {
    const claims = new Map<string, string[]>();
    for (const sides of pairs) {
      const slips = (told.get(sides.mine) ?? []).flatMap(({ causes }) =>
        causes.flatMap((cause) => cause.slips),
      );
      for (const { load } of slips) {
        if (!load) continue;
        const key = `${load.in} ${load.id}`;
        claims.set(key, [...(claims.get(key) ?? []), sides[otherSide(load.in)].row.id]);
      }
    }
    return claims;
  };
  const first = tell(alone);
  const claims = claimsIn(first);
  const isContested = (row: ReadPayment) => (claims.get(named(row))?.length ?? 0) > 1;
  const differences = alone.some(isContested) ? tell(alone.filter((row) => !isContested(row))) : first;
  const within = new Map<string, string>();
  // Without the contested, a sum may name another payment; one that two then name stays unnamed here.
  for (const [key, [of, ...others]] of claimsIn(differences))
    if (of !== undefined && others.length === 0) within.set(key, of);
  return { differences, within };
}

interface Sides {
  readonly mine: ReadPayment;
  readonly record: ReadPayment;
}

interface Lists {
  readonly mine: readonly ReadPayment[];
  readonly record: readonly ReadPayment[];
}

/**
 * Pairs of one reference that have the amount or the day in common. Where fewer than half of the references find a
 * partner so, the lists number payments otherwise, and theirs meet by chance: then only the same amount will do, and
 * references say nothing more.
 */
function pairByReference(
  { mine, record }: Lists,
  bounds: Bounds,
): { readonly pairs: readonly RowPair<ReadPayment>[]; readonly likening: PaymentLikening } {
  const own = { mine: rowsBy(mine, keyOf), record: rowsBy(record, keyOf) };
  const tooOften = new Set<string>();
  for (const rows of Object.values(own))
    for (const [key, of] of rows) if (of.length > MOST_OF_ONE_NUMBER) tooOften.add(key);
  const referenceOf = ({ reference }: ReadPayment) =>
    reference === null || tooOften.has(reference) ? null : reference;
  const isAnswered = (row: ReadPayment) => own[otherSide(row.side)].has(referenceOf(row) ?? '');
  const likening = { referenceOf, isAnswered };
  const pairs = [...own.mine].flatMap(([key, rows]) => {
    const others = tooOften.has(key) ? undefined : own.record.get(key);
    const cost = (a: ReadPayment, b: ReadPayment) =>
      a.units === b.units || a.day === b.day ? paymentCost(a, b, likening) : undefined;
    return others ? (pairUp({ mine: rows, record: others, cost, alone: ALONE, bounds }) ?? []) : [];
  });
  const counts = [mine, record].map((rows) => rows.filter((row) => referenceOf(row) !== null).length);
  if (2 * pairs.length >= Math.min(...counts)) return { pairs, likening };
  const sure = pairs.filter(([a, b]) => a.units === b.units && Math.abs(a.day - b.day) <= MOST_DAYS);
  return { pairs: sure, likening: { referenceOf: () => null, isAnswered: () => false } };
}

const keyOf = ({ reference }: ReadPayment) => reference;

/** The record's rows that one of mine could be: of about its day, or with its reference. */
function nearIn(record: readonly ReadPayment[], referenceOf: PaymentLikening['referenceOf']) {
  const byDay = rowsBy(record, ({ day }) => String(day));
  const byDate = rowsBy(record, ({ row }) => row.paidOn);
  const byReference = rowsBy(record, referenceOf);
  return (row: ReadPayment): Iterable<ReadPayment> => {
    const near = new Set<ReadPayment>(byReference.get(referenceOf(row) ?? ''));
    for (const other of byDate.get(turnedDay(row.row.paidOn)) ?? []) near.add(other);
    for (let day = row.day - MOST_DAYS; day <= row.day + MOST_DAYS; day++)
      for (const other of byDay.get(String(day)) ?? []) near.add(other);
    return near;
  };
}

interface Known {
  readonly isLeft: (row: ReadPayment) => boolean;
  readonly referenceOf: (row: ReadPayment) => string | null;
}

/** Rows that look for a partner, without those that say again what one of the same reference says. */
function withoutRepeats(rows: readonly ReadPayment[], { isLeft, referenceOf }: Known): ReadPayment[] {
  const keyed = (row: ReadPayment) => (referenceOf(row) === null ? null : repeatKey(row, referenceOf));
  const needless = new Set([...repeatsBy(rows, { isLeft, keyed })].map(([row]) => row));
  return rows.filter((row) => isLeft(row) && !needless.has(row));
}

/** For each row without a partner that stands twice, the one that it repeats. */
function repeats(
  rows: readonly ReadPayment[],
  { isLeft, referenceOf }: Known,
): Map<ReadPayment, ReadPayment> {
  return repeatsBy(rows, { isLeft, keyed: (row) => repeatKey(row, referenceOf) });
}

/** The same numbered reference and amount; where the reference is words or none, on the same day too. */
function repeatKey(row: ReadPayment, referenceOf: Known['referenceOf']): string {
  const reference = referenceOf(row);
  const isNumbered = reference !== null && /\d/.test(reference);
  return JSON.stringify([reference, String(row.units), isNumbered ? null : row.day]);
}

function repeatsBy(
  rows: readonly ReadPayment[],
  { isLeft, keyed }: Pick<Known, 'isLeft'> & { readonly keyed: (row: ReadPayment) => string | null },
): Map<ReadPayment, ReadPayment> {
  const found = new Map<ReadPayment, ReadPayment>();
  for (const group of rowsBy(rows, keyed).values()) {
    if (group.length < 2) continue;
    const open = inOwnOrder(group.filter(isLeft));
    const paired = group.filter((row) => !isLeft(row));
    for (const row of paired.length > 0 ? open : open.slice(1)) {
      const of = nearestFirst(paired, row)[0] ?? open[0];
      if (of) found.set(row, of);
    }
  }
  return found;
}
