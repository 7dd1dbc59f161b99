/**
 * What a good adviser would say about a formula before it is signed, in plain sentences with figures and what to do.
 * The same for both sides; it changes no price.
 */
import type { Agreement } from '../agreement/document.ts';
import { warnOfFractions, warnOfOverpricing } from '../settlement/makes-sense.ts';
import { adviseOnAcceptance } from './advice/acceptance-edges.ts';
import type { Advice } from './advice/advice.ts';
import { adviseOnCliffs } from './advice/cliff-words.ts';
import { adviseOnLimits } from './advice/crossed-limits.ts';
import { adviseOnFibre } from './advice/double-fibre.ts';
import { prepareGround } from './advice/ground.ts';
import { adviseOnQuotes } from './advice/missing-quotes.ts';
import { adviseOnAdvance, adviseOnPayment } from './advice/payment-terms.ts';
import { adviseOnKeeping } from './advice/retest-block.ts';
import { adviseOnStarch } from './advice/starch-falls.ts';
import { adviseOnUnpriced } from './advice/unpriced-loads.ts';

export type { Advice, AdviceKind } from './advice/advice.ts';

export interface AdviceSetting {
  /** Quotes by reference; for one that is not given, a usual quote within floor and ceiling is assumed. */
  readonly quotes?: ReadonlyMap<string, string> | undefined;
}

/** Advice on a checked agreement, gravest first; empty where there is nothing to say. */
export function adviseOn(agreement: Agreement, { quotes }: AdviceSetting = {}): readonly Advice[] {
  const ground = prepareGround(agreement, quotes);
  return [
    ...adviseOnUnpriced(ground),
    ...warnOfOverpricing(agreement).map(
      (warning): Advice => ({ kind: 'pays-twice', message: `${warning}. ${PAY_ONCE}` }),
    ),
    ...adviseOnStarch(ground),
    ...adviseOnFibre(ground),
    ...adviseOnLimits(ground),
    ...adviseOnCliffs(ground),
    ...adviseOnAcceptance(ground),
    ...adviseOnQuotes(agreement),
    ...adviseOnKeeping(agreement.retest),
    ...adviseOnPayment(agreement),
    ...adviseOnAdvance(ground),
    ...warnOfFractions(agreement).map(
      (warning): Advice => ({ kind: 'looks-like-fraction', message: capitalised(warning) }),
    ),
  ];
}

const PAY_ONCE =
  'Lower a share, or pay the starch as grain-equivalent where what is not starch is paid, too.';

function capitalised(sentence: string): string {
  return `${sentence.slice(0, 1).toUpperCase()}${sentence.slice(1)}`;
}
