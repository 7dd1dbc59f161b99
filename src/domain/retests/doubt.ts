/**
 * Whether a doubt is larger than the scatter of the test itself. Two laboratories that test one sample well still lie
 * apart; a retest of a difference that small is as likely to go against whoever asks.
 */

import type { Tested } from '../agreement/measures.ts';
import type { DecidingMethod } from '../agreement/retest-rules.ts';
import { compare, decimal, type Exact } from '../numbers/exact.ts';
import { laboratoryScatter, type Scatter } from '../worth/laboratory-scatter.ts';
import { distance } from './figures.ts';

/** What the parties agreed on as the scatter of a test, and what it is. */
export interface AgreedScatter {
  readonly limit: Exact;
  /** As it stands in the agreement. */
  readonly written: string;
  readonly is: 'tolerance' | 'reproducibility' | 'repeatability';
}

export interface Doubt {
  readonly apart: Exact;
  readonly agreed: AgreedScatter | undefined;
  /** Published between laboratories, from the closest to the widest. */
  readonly published: Scatter | undefined;
  /** `unknown` where neither is there. */
  readonly is: 'within' | 'between' | 'beyond' | 'unknown';
}

/** The limit that a method names; of ISO 5725-6 what counts between two laboratories, where it is agreed. */
export function agreedScatter(method: DecidingMethod): AgreedScatter | undefined {
  switch (method.method) {
    case 'referee-stands':
      return agreed(method.tolerance, 'tolerance');
    case 'astm-d3244':
      return agreed(method.reproducibility, 'reproducibility');
    case 'iso-5725':
      return method.reproducibility === undefined
        ? agreed(method.repeatability, 'repeatability')
        : agreed(method.reproducibility, 'reproducibility');
    case 'closest-two':
    case 'median':
    case 'second-scale':
      return undefined;
  }
}

function agreed(written: string, is: AgreedScatter['is']): AgreedScatter {
  return { limit: decimal(written), written, is };
}

/** 54.0 against 52.5 by an agreed tolerance of 2.0: within. The agreed limit goes before published ones. */
export function doubtOf(
  method: DecidingMethod,
  { measure, first, claimed }: { readonly measure: Tested; readonly first: Exact; readonly claimed: Exact },
): Doubt {
  const apart = distance(first, claimed);
  const agreed = agreedScatter(method);
  const published = laboratoryScatter(measure, first);
  return { apart, agreed, published, is: compared(apart, { agreed, published }) };
}

function compared(apart: Exact, { agreed, published }: Pick<Doubt, 'agreed' | 'published'>): Doubt['is'] {
  const [low, high] = agreed ? [agreed.limit, agreed.limit] : [published?.low, published?.high];
  if (!low || !high) return 'unknown';
  if (compare(apart, low) <= 0) return 'within';
  return compare(apart, high) <= 0 ? 'between' : 'beyond';
}
