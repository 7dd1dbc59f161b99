/**
 * The closed list of what an adviser warns of, and the shape of one warning.
 */

export const ADVICE_KINDS = [
  'cannot-price',
  'pays-twice',
  'falls-with-starch',
  'fibre-twice',
  'cliff',
  'floor-above-ceiling',
  'no-missing-quote-rule',
  'kept-too-short',
  'interest-without-due-date',
  'discount-after-due',
  'advance-above-price',
  'looks-like-fraction',
] as const;
export type AdviceKind = (typeof ADVICE_KINDS)[number];

export interface Advice {
  readonly kind: AdviceKind;
  /** Whole sentences, with the figures and what to do. */
  readonly message: string;
}
