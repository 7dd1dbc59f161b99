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

/** No more than the closest laboratories differ by; than the widest do; or more. */
export type Scattered = 'within' | 'between' | 'beyond' | 'unknown';

export interface Doubt {
  readonly apart: Exact;
  readonly agreed: AgreedScatter | undefined;
  /** Published between laboratories, from the closest to the widest. */
  readonly published: Scatter | undefined;
  /** Beside the agreed limit or, where there is none, the published ones; `unknown` where neither is there. */
  readonly is: Scattered;
  /** Beside the published limits alone. */
  readonly isByPublished: Scattered;
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
  const isByPublished = compared(apart, published);
  const is = agreed ? compared(apart, { low: agreed.limit, high: agreed.limit }) : isByPublished;
  return { apart, agreed, published, is, isByPublished };
}

function compared(apart: Exact, limits: Pick<Scatter, 'low' | 'high'> | undefined): Scattered {
  if (!limits) return 'unknown';
  if (compare(apart, limits.low) <= 0) return 'within';
  return compare(apart, limits.high) <= 0 ? 'between' : 'beyond';
}
