/**
 * What a method says of a question: what counts and why, or whose test is needed next.
 */
import type { DecidingMethod } from '../agreement/retest-rules.ts';
import type { Exact } from '../numbers/exact.ts';
import type { RetestFigure, Tester } from './figures.ts';

/** What counts, and why; `from` are the figures that it rests on. */
export interface Decided {
  readonly kind: 'decided';
  readonly value: Exact;
  readonly from: readonly RetestFigure[];
  /** The step of the method that applied. */
  readonly because: Because;
}

export type Because =
  | 'first-stands'
  | 'referee-moved-it'
  | 'mean-of-two'
  | 'mean-of-three'
  | 'mean-of-four'
  | 'mean-of-nearer-pair'
  | 'median'
  | 'tie'
  | 'second-moved-it';

/** Tests that are to be made before anything can be decided. */
export interface Needs {
  readonly kind: 'needs';
  /** Who is to test its part of the sample (again), and how many results each is to report. */
  readonly tests: readonly { readonly by: Tester; readonly results: number }[];
}

export type Ruling = Decided | Needs;

/** Methods that decide about a laboratory's figure; a weight is decided by a second scale. */
export type LaboratoryMethod = Exclude<DecidingMethod, { readonly method: 'second-scale' }>;

export interface Question {
  /** The figure that is questioned. */
  readonly first: RetestFigure;
  /** Those reported since, oldest first: each tester's own in its order. */
  readonly later: readonly RetestFigure[];
}
