/**
 * What two figures of one load may differ by, each cause tried and named only where it explains the difference exactly.
 * The order of each list is the order in which causes are believed: what is special enough that chance hardly brings it
 * about comes before slips of the hand, and of those the one that takes the fewest assumptions first.
 */
import type { WeightUnit } from '../../quantities/units.ts';
import type { ListSide } from '../list-row.ts';

/** Weights: a rounded figure, another unit, another of the three weights, then slips; a tare only worked out comes last. */
export const WEIGHT_CAUSES = [
  'rounded',
  'other-unit',
  'gross-for-net',
  'tare-of-another-truck',
  'point-moved',
  'digits-transposed',
  'digit-mistyped',
  'digit-doubled',
  'digit-dropped',
  'implied-tare-of-another-truck',
] as const;

/** Amounts: what follows from another difference of the load, then what is priced otherwise, then slips. */
export const AMOUNT_CAUSES = [
  'rounded',
  'follows-weight',
  'follows-test',
  'charge-left-out',
  'charge-twice',
  'quote-of-another-day',
  'as-fed-for-dry',
  'other-test',
  'point-moved',
  'digits-transposed',
  'digit-mistyped',
  'digit-doubled',
  'digit-dropped',
] as const;

/** Days: a delivery around midnight is far more frequent than a slip. */
export const DATE_CAUSES = [
  'day-shifted',
  'day-and-month-exchanged',
  'digits-transposed',
  'digit-mistyped',
] as const;

export const TICKET_CAUSES = [
  'digits-transposed',
  'digit-mistyped',
  'digit-doubled',
  'digit-dropped',
] as const;

/** Dry matter, in percent. */
export const TEST_CAUSES = [
  'rounded',
  'moisture-for-dry-matter',
  'point-moved',
  'digits-transposed',
  'digit-mistyped',
  'digit-doubled',
  'digit-dropped',
] as const;

/** Payments: what other payments and documents come to exactly, then slips. */
export const PAYMENT_CAUSES = [
  'sign-turned',
  'two-as-one',
  'discount-taken',
  'fee-within',
  'invoice-within',
  'point-moved',
  'digits-transposed',
  'digit-mistyped',
  'digit-doubled',
  'digit-dropped',
] as const;

export type WeightCause = (typeof WEIGHT_CAUSES)[number];
export type AmountCause = (typeof AMOUNT_CAUSES)[number];
export type DateCause = (typeof DATE_CAUSES)[number];
export type TicketCause = (typeof TICKET_CAUSES)[number];
export type TestCause = (typeof TEST_CAUSES)[number];
export type PaymentCause = (typeof PAYMENT_CAUSES)[number];
export type CauseName = WeightCause | AmountCause | DateCause | TicketCause | TestCause | PaymentCause;

/** What is known of a slip beside its kind. */
export interface SlipDetail {
  /** Which of the weights of a ticket. */
  readonly part?: 'gross' | 'tare' | 'net';
  /** The figure is in `isIn`, and stands as one in `takenFor`. */
  readonly units?: { readonly isIn: WeightUnit; readonly takenFor: WeightUnit };
  /** Whose tare it is; of payments, the one that is in the sum as well. */
  readonly load?: { readonly in: ListSide; readonly id: string };
  /** `YYYY-MM-DD` of the quote. */
  readonly day?: string;
  /** The charge, the other way of pricing, or the document. */
  readonly name?: string;
}

/** In whose list the figure slipped; `either` where the figures alone cannot tell. */
export interface Slip extends SlipDetail {
  readonly by: ListSide | 'either';
}

/** One cause that explains a difference. Two slips: it may have been the one in mine or the other in the record. */
export interface Cause<Name extends CauseName = CauseName> {
  readonly name: Name;
  readonly slips: readonly Slip[];
}

/** All that explain a difference, the likeliest first; none where the cause is unknown. */
export type Causes<Name extends CauseName = CauseName> = readonly Cause<Name>[];

/** Whether `own` follows from `other` by this slip, and what is known of it. */
export type Trial<Side> = (own: Side, other: Side) => SlipDetail | undefined;

/** Tries each cause in its order, on mine as the slip and on the record's. */
export function tryCauses<Name extends CauseName, Side>(
  order: readonly Name[],
  trials: Readonly<Record<Name, Trial<Side>>>,
  { mine, record }: { readonly mine: Side; readonly record: Side },
): Causes<Name> {
  return order.flatMap((name) => {
    const trial = trials[name];
    const slips = slipsOf(trial(mine, record), trial(record, mine));
    return slips.length === 0 ? [] : [{ name, slips }];
  });
}

function slipsOf(inMine: SlipDetail | undefined, inRecord: SlipDetail | undefined): Slip[] {
  if (inMine && inRecord && isSameDetail(inMine, inRecord)) return [{ by: 'either', ...inMine }];
  return [
    ...(inMine ? [{ by: 'mine' as const, ...inMine }] : []),
    ...(inRecord ? [{ by: 'record' as const, ...inRecord }] : []),
  ];
}

function isSameDetail(a: SlipDetail, b: SlipDetail): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
