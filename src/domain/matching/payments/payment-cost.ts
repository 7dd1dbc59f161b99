/**
 * Whether two rows may be one payment, and how far they are from being it.
 */
import type { PaymentCause } from '../causes/cause.ts';
import { paymentCauses, turnedDay } from './payment-causes.ts';
import { distance, type ReadPayment } from './payment-list-row.ts';

/** Days that may lie between a payment and its being booked: a check travels and is cashed. */
export const MOST_DAYS = 10;

const A_DAY = 15;
const FAR_DAY = 200;
const SIGN_TURNED = 350;
const EXPLAINED = 300;
const UNEXPLAINED = 400;
const MOST_APART = 300;
const OTHER_REFERENCE = 150;
const REFERENCE_UNKNOWN = 20;
const OTHER_METHOD = 10;
const OTHER_CONTENT = 1;

/** How two rows are compared. */
export interface PaymentLikening {
  /** Null for a row without a reference that tells payments apart. */
  readonly referenceOf: (row: ReadPayment) => string | null;
  /** Whether the row's reference stands in the other list. */
  readonly isAnswered: (row: ReadPayment) => boolean;
}

/** How many days apart a cause is believed without a reference; for others a day's work is all that speaks for them. */
const DAYS_OF: Readonly<Partial<Record<PaymentCause, number>>> = {
  'discount-taken': 5,
  'fee-within': 5,
  'invoice-within': 3,
  'point-moved': 3,
  'digits-transposed': 3,
};
const MOST_DAYS_OF_A_CAUSE = 5;

/**
 * A whole number below `ALONE`, or undefined where the two can hardly be one payment. The same the other way round. With
 * one reference any two may be; with two that differ, only the same amount, and where neither stands in the other list.
 */
export function paymentCost(a: ReadPayment, b: ReadPayment, likening: PaymentLikening): number | undefined {
  const reference = referenceCost(a, b, likening);
  const date = dateCost(a, b, reference === 0 && likening.referenceOf(a) !== null);
  if (reference === undefined || date === undefined) return undefined;
  const amount = amountCost(a, b, likening);
  if (amount === undefined) return undefined;
  const [one, other] = [a.row.method, b.row.method];
  return (
    reference +
    date +
    amount +
    (one !== null && other !== null && one !== other ? OTHER_METHOD : 0) +
    (a.content === b.content ? 0 : OTHER_CONTENT)
  );
}

function referenceCost(
  a: ReadPayment,
  b: ReadPayment,
  { referenceOf, isAnswered }: PaymentLikening,
): number | undefined {
  const [one, other] = [referenceOf(a), referenceOf(b)];
  if (one === other) return 0;
  if (one === null || other === null) return REFERENCE_UNKNOWN;
  return a.units === b.units && !isAnswered(a) && !isAnswered(b) ? OTHER_REFERENCE : undefined;
}

function dateCost(a: ReadPayment, b: ReadPayment, isSameReference: boolean): number | undefined {
  const days = Math.abs(a.day - b.day);
  if (days <= MOST_DAYS) return days * A_DAY;
  const isTurned = a.units === b.units && a.row.paidOn === turnedDay(b.row.paidOn);
  return isTurned || isSameReference ? FAR_DAY : undefined;
}

function amountCost(a: ReadPayment, b: ReadPayment, { referenceOf }: PaymentLikening): number | undefined {
  if (a.units === b.units) return 0;
  const reference = referenceOf(a);
  const isSameReference = reference !== null && reference === referenceOf(b);
  const days = Math.abs(a.day - b.day);
  if (a.units === -b.units) return SIGN_TURNED;
  if (days > MOST_DAYS_OF_A_CAUSE && !isSameReference) return undefined;
  const causes = paymentCauses({ mine: a, record: b }, {});
  if (causes.some(({ name }) => isSameReference || days <= (DAYS_OF[name] ?? 0))) return EXPLAINED;
  if (isSameReference) return UNEXPLAINED;
  // One twentieth, within a few days: an amount that was read or reckoned otherwise.
  const apart = distance(a.units, b.units);
  const larger = largerOf(distance(a.units, 0n), distance(b.units, 0n));
  if (days > 3 || apart * 20n > larger) return undefined;
  return UNEXPLAINED + Number((apart * 20n * BigInt(MOST_APART)) / larger);
}

function largerOf(a: bigint, b: bigint): bigint {
  if (a < b) return b;
  return a;
}
