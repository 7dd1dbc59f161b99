/**
 * Decides a question about a laboratory's figure by the method that the agreement names, from the figures that are in; or
 * says whose test is needed next. The same figures give the same decision, whenever they came.
 */
import type { Exact } from '../numbers/exact.ts';
import type { Rounding } from '../numbers/rounding.ts';
import { asDecided } from './figures.ts';
import { assignedTestValue } from './methods/astm-d3244.ts';
import { acceptability } from './methods/iso-5725.ts';
import { closestTwo, medianOfThree, refereeStands } from './methods/three-figures.ts';
import type { Decided, LaboratoryMethod, Question, Ruling } from './ruling.ts';

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
export function decidedFigure({ value, from }: Pick<Decided, 'value' | 'from'>, rounding: Rounding): Exact {
  return asDecided(value, from, rounding);
}
