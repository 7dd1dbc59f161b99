/**
 * Decides a question about a laboratory's figure by the method that the agreement names, from the figures that are in; or
 * says whose test is needed next. The same figures give the same decision, whenever they came.
 */
import type { DecidingMethod } from '../agreement/retest-rules.ts';
import type { Exact } from '../numbers/exact.ts';
import type { Rounding } from '../numbers/rounding.ts';
import { asDecided, type RetestFigure, type Tester } from './figures.ts';
import { assignedTestValue } from './methods/astm-d3244.ts';
import { acceptability } from './methods/iso-5725.ts';
import { closestTwo, medianOfThree, refereeStands } from './methods/three-figures.ts';

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
  | 'tie';

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

/** The ruling of a method. Figures beyond those that it asks for are not looked at. */
export function rule(method: LaboratoryMethod, question: Question): Ruling {
  switch (method.method) {
    case 'referee-stands':
      return refereeStands(method, question);
    case 'closest-two':
      return closestTwo(question);
    case 'median':
      return medianOfThree(question);
    case 'iso-5725':
      return acceptability(method, question);
    case 'astm-d3244':
      return assignedTestValue(method, question);
  }
}

/** A decision as it is stored and settled by: rounded to the decimals of the most precise figure that went in. */
export function decidedFigure({ value, from }: Decided, rounding: Rounding): Exact {
  return asDecided(value, from, rounding);
}
