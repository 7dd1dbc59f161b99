/**
 * Why the amounts or the days of one payment differ: each cause only where it explains the difference to the minor unit.
 */
import {
  type Causes,
  type DateCause,
  PAYMENT_CAUSES,
  type PaymentCause,
  type SlipDetail,
  type Trial,
  tryCauses,
} from '../causes/cause.ts';
import { digitTrials } from '../causes/digit-slips.ts';
import { inOwnOrder } from '../list-row.ts';
import { type KnownAmount, knownKey, type ReadPayment } from './payment-list-row.ts';

interface Sides {
  readonly mine: ReadPayment;
  readonly record: ReadPayment;
}

export interface Explaining {
  /** Payments of either list without a partner that may be within another's sum: they are asked for by their amount. */
  readonly aloneWith?: (wanted: { readonly beside: ReadPayment; readonly units: bigint }) => ReadPayment[];
}

/** The causes that explain why the amounts of two rows differ; none where they are the same. */
export function paymentCauses(sides: Sides, { aloneWith }: Explaining): Causes<PaymentCause> {
  if (sides.mine.units === sides.record.units) return [];
  const { mine, record } = sides;
  /** What the larger of two payments of one direction has more. */
  const more = (larger: ReadPayment, smaller: ReadPayment) => {
    if (larger.units > 0n !== smaller.units > 0n) return 0n;
    return larger.units > 0n ? larger.units - smaller.units : smaller.units - larger.units;
  };
  const named = (because: KnownAmount['because'], units: bigint): SlipDetail | undefined => {
    if (units <= 0n) return undefined;
    const key = knownKey(because, units);
    const name = mine.known.get(key) ?? record.known.get(key);
    return name === undefined ? undefined : { name };
  };
  const trials: Record<PaymentCause, Trial<ReadPayment>> = {
    'sign-turned': (own, other) => (own.units === -other.units ? {} : undefined),
    'two-as-one': (own, other) => {
      if (more(own, other) <= 0n) return undefined;
      const [second] = aloneWith?.({ beside: other, units: own.units - other.units }) ?? [];
      return second && { load: { in: second.side, id: second.row.id } };
    },
    'discount-taken': (own, other) => named('discount-taken', more(other, own)),
    'fee-within': (own, other) => named('fee-within', more(own, other)),
    'invoice-within': (own, other) => named('invoice-within', more(own, other)),
    ...DIGIT_TRIALS,
  };
  return tryCauses(PAYMENT_CAUSES, trials, sides);
}

/** Figures of two signs are no slip of a digit. */
const DIGIT_TRIALS = digitTrials((own: ReadPayment, other: ReadPayment) =>
  own.units > 0n === other.units > 0n ? [{ own: own.digits, other: other.digits, detail: {} }] : [],
);

/** A day that is other where day and month have changed places; checks that are cashed later need no cause. */
export function paymentDateCauses(sides: Sides): Causes<DateCause> {
  const order = ['day-and-month-exchanged'] as const;
  return tryCauses(order, { 'day-and-month-exchanged': exchanged }, sides);
}

const exchanged: Trial<ReadPayment> = (own, other) =>
  own.day !== other.day && own.row.paidOn === turnedDay(other.row.paidOn) ? {} : undefined;

/** "2026-03-09" for "2026-09-03". */
export function turnedDay(day: string): string {
  const [year, month, date] = day.split('-');
  return `${year}-${date}-${month}`;
}

/** Of rows, those nearest in days first; of equally near ones by what they say. */
export function nearestFirst(rows: readonly ReadPayment[], { day }: ReadPayment): ReadPayment[] {
  const apart = (row: ReadPayment) => Math.abs(row.day - day);
  return inOwnOrder(rows).toSorted((a, b) => apart(a) - apart(b));
}
