/**
 * What a good adviser would say about a formula before it is signed, in plain sentences with figures and what to do.
 */
import type { Agreement } from '../agreement/document.ts';
import { warnOfFractions, warnOfOverpricing } from '../settlement/makes-sense.ts';

export const ADVICE_KINDS = [
  'cliff',
  'falls-with-starch',
  'fibre-twice',
  'no-missing-quote-rule',
  'floor-above-ceiling',
  'kept-too-short',
  'cannot-price',
  'pays-twice',
  'looks-like-fraction',
] as const;
export type AdviceKind = (typeof ADVICE_KINDS)[number];

export interface Advice {
  readonly kind: AdviceKind;
  /** Whole sentences, with figures and what to do. */
  readonly message: string;
}

export interface AdviceSetting {
  /** Quotes by reference; without one, a usual quote within floor and ceiling is assumed. */
  readonly quotes?: ReadonlyMap<string, string> | undefined;
}

/** Advice on a checked agreement, the same for both sides; empty where there is nothing to say. */
export function adviseOn(agreement: Agreement, _setting: AdviceSetting = {}): readonly Advice[] {
  return [
    ...warnOfOverpricing(agreement).map(
      (warning): Advice => ({ kind: 'pays-twice', message: `${warning}.` }),
    ),
    ...warnOfFractions(agreement).map(
      (warning): Advice => ({ kind: 'looks-like-fraction', message: capital(warning) }),
    ),
  ];
}

function capital(sentence: string): string {
  return `${sentence.slice(0, 1).toUpperCase()}${sentence.slice(1)}`;
}
