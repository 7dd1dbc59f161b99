/**
 * The assigned test value of ASTM D3244, section 8.3 (read): both sides test the same kept sample; within R their mean
 * counts. Else both retest, and the first two are dropped: within R the mean of the retests. Else a referee: where the
 * three lie within 1.2 R their mean, else the mean of the closer pair. A value just at a limit passes. The procedure says
 * nothing of equal distance, so the agreement's own rule applies there.
 */
import { compare, decimal, multiply } from '../../numbers/exact.ts';
import { distance, meanOf, meanOfNearerPair, medianOf, type RetestFigure, rangeOf } from '../figures.ts';
import type { Decided, LaboratoryMethod, Question, Ruling } from '../ruling.ts';
import { figuresFrom, testsNeeded } from '../testing.ts';

type Astm = Extract<LaboratoryMethod, { method: 'astm-d3244' }>;

const REFEREE_SPAN = decimal('1.2');

/** R = 2.0: 68.9 and 71.0, then 69.4 and 71.2 give 70.30. */
export function assignedTestValue(method: Astm, { first, later }: Question): Ruling {
  const reproducibility = decimal(method.reproducibility);
  const [sellers, buyers] = [figuresFrom(later, 'seller'), figuresFrom(later, 'buyer')];
  for (const round of [0, 1] as const) {
    const [seller, buyer] = [sellers[round], buyers[round]];
    if (!seller || !buyer) return testsNeeded(later, { seller: round + 1, buyer: round + 1 });
    if (compare(distance(seller.value, buyer.value), reproducibility) <= 0) {
      return {
        kind: 'decided',
        value: meanOf([seller.value, buyer.value]),
        from: [seller, buyer],
        because: 'mean-of-two',
      };
    }
    const [referee] = figuresFrom(later, 'referee');
    if (round === 1) {
      return referee
        ? withReferee(method, { first, three: [seller, buyer, referee] })
        : testsNeeded(later, { referee: 1 });
    }
  }
  throw new Error('Both rounds were looked at');
}

function withReferee(
  { reproducibility, tie }: Astm,
  { first, three }: { readonly first: RetestFigure; readonly three: readonly RetestFigure[] },
): Decided {
  const values = three.map(({ value }) => value);
  const span = multiply(REFEREE_SPAN, decimal(reproducibility));
  if (compare(rangeOf(values), span) <= 0) {
    return { kind: 'decided', value: meanOf(values), from: three, because: 'mean-of-three' };
  }
  const nearer = meanOfNearerPair(values);
  if (nearer) return { kind: 'decided', value: nearer, from: three, because: 'mean-of-nearer-pair' };
  const referee = three.slice(-1);
  switch (tie) {
    case 'median':
      return { kind: 'decided', value: medianOf(values), from: three, because: 'tie' };
    case 'mean':
      return { kind: 'decided', value: meanOf(values), from: three, because: 'tie' };
    case 'first-stands':
      return { kind: 'decided', value: first.value, from: [first], because: 'tie' };
    case 'referee-stands':
      return {
        kind: 'decided',
        value: meanOf(referee.map(({ value }) => value)),
        from: referee,
        because: 'tie',
      };
  }
}
