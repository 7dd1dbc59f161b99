/**
 * The plain methods: the referee's figure replaces the first where they differ by more than agreed; the mean of the two
 * nearest of three; the median of three.
 */
import { compare, decimal } from '../../numbers/exact.ts';
import { distance, meanOfNearerPair, medianOf, type RetestFigure } from '../figures.ts';
import type { Decided, LaboratoryMethod, Question, Ruling } from '../ruling.ts';
import { figuresFrom, testsNeeded } from '../testing.ts';

/** 54.0 and a referee's 55.1 by a tolerance of 1.0: 55.1. A difference just at the tolerance leaves the first. */
export function refereeStands(
  { tolerance }: Extract<LaboratoryMethod, { method: 'referee-stands' }>,
  { first, later }: Question,
): Ruling {
  const [referee] = figuresFrom(later, 'referee');
  if (!referee) return testsNeeded(later, { referee: 1 });
  const isMoved = compare(distance(first.value, referee.value), decimal(tolerance)) > 0;
  return isMoved
    ? { kind: 'decided', value: referee.value, from: [referee], because: 'referee-moved-it' }
    : { kind: 'decided', value: first.value, from: [first], because: 'first-stands' };
}

/** 54.0, 55.2 and 54.4: the mean of 54.0 and 54.4 is 54.2. Equally near on both sides, the middle one counts. */
export function closestTwo(question: Question): Ruling {
  return ofThree(question, (figures) => {
    const values = figures.map(({ value }) => value);
    const mean = meanOfNearerPair(values);
    return mean
      ? { kind: 'decided', value: mean, from: figures, because: 'mean-of-nearer-pair' }
      : { kind: 'decided', value: medianOf(values), from: figures, because: 'median' };
  });
}

/** 54.0, 55.2 and 54.4: 54.4. */
export function medianOfThree(question: Question): Ruling {
  return ofThree(question, (figures) => ({
    kind: 'decided',
    value: medianOf(figures.map(({ value }) => value)),
    from: figures,
    because: 'median',
  }));
}

/** With the first figure, the laboratory's second and the referee's. */
function ofThree({ first, later }: Question, decide: (figures: readonly RetestFigure[]) => Decided): Ruling {
  const [again] = figuresFrom(later, 'laboratory');
  const [referee] = figuresFrom(later, 'referee');
  if (!again || !referee) return testsNeeded(later, { laboratory: 1, referee: 1 });
  return decide([first, again, referee]);
}
