/**
 * `schedule`: a premium or discount for each point that a test lies outside its neutral range, in steps.
 */

import type { Step, TermOf } from '../../agreement/document.ts';
import { MEASURE_NAMES, MEASURE_UNITS } from '../../agreement/measures.ts';
import {
  add,
  ceiling,
  compare,
  decimal,
  type Exact,
  floor,
  isZero,
  multiply,
  percent,
  powerOfTen,
  smaller,
  subtract,
  whole,
  ZERO,
} from '../../numbers/exact.ts';
import { printWritten, withMinus } from '../../numbers/printing.ts';
import { tell, tellEnd } from '../derivation.ts';
import { amountOf, type Line, type Money, printAmount } from '../line.ts';
import { needed, type PricingContext } from '../measured-load.ts';
import { namePer, quantityPer, tellQuantityPer } from '../per-quantity.ts';

type Schedule = TermOf<'schedule'>;

/** Points on one side of the neutral range, and what they come to. */
interface Walk {
  readonly side: 'above' | 'below';
  /** Points outside, as measured. */
  readonly points: Exact;
  /** Points that count, after `count`. */
  readonly counted: Exact;
  /** Points taken by each step, with the step's rate as written. */
  readonly taken: readonly { readonly points: Exact; readonly perPoint: string }[];
  /** Sum of points × perPoint: money per unit, or percent. */
  readonly adjustment: Exact;
}

/** NDF of 31.3 over a neutral 0 to 26, by 4 points at −0.80 and the rest at −1.50: −5.15 per unit. */
export function scheduleLine(term: Schedule, money: Money) {
  const { per, weight } = term;
  const perUnit = per === undefined ? undefined : { per, weight };
  return ({ measured, before }: PricingContext): Line => {
    const value = needed(measured.figures[term.on], term.on);
    const walk = walkSchedule(term, value);
    const adjustment = walk?.adjustment ?? ZERO;
    const rate = perUnit ? adjustment : percent(adjustment);
    const quantity = perUnit ? quantityPer(perUnit, measured) : { n: before, d: powerOfTen(money.decimals) };
    const amount = amountOf(quantity, rate, money);
    const how = () => {
      const told = tellWalk(term, value, walk);
      if (!walk || isZero(rate)) return `${told}: nothing to add`;
      const of = perUnit
        ? `${tellQuantityPer(perUnit, measured)} × ${tell(rate)}`
        : `${withMinus(printAmount(before, money))} so far × ${tell(adjustment)} %`;
      const each = perUnit
        ? `${tell(rate)} ${money.currency} per ${namePer(perUnit)}`
        : `${tell(adjustment)} %`;
      return `${told} = ${each}; ${of} ${tellEnd(multiply(quantity, rate), amount, money)}`;
    };
    return {
      label: term.label,
      quantity,
      unit: perUnit ? perUnit.per : { currency: money.currency },
      rate,
      amount,
      how,
    };
  };
}

/** Undefined inside the neutral range, whose ends belong to it, and on a side without steps. */
function walkSchedule(term: Schedule, value: Exact): Walk | undefined {
  const over = subtract(value, decimal(term.neutral.to));
  const under = subtract(decimal(term.neutral.from), value);
  if (compare(over, ZERO) > 0) return term.above && walkSteps(term, 'above', over);
  if (compare(under, ZERO) > 0) return term.below && walkSteps(term, 'below', under);
  return undefined;
}

function walkSteps(term: Schedule, side: Walk['side'], points: Exact): Walk {
  const counted = countPoints(points, term.count);
  const taken: { points: Exact; perPoint: string }[] = [];
  let left = counted;
  let adjustment = ZERO;
  for (const step of (term[side] ?? []) as readonly Step[]) {
    if (isZero(left)) break;
    const part = step.points === undefined ? left : smaller(left, decimal(step.points));
    taken.push({ points: part, perPoint: step.perPoint });
    adjustment = add(adjustment, multiply(part, decimal(step.perPoint)));
    left = subtract(left, part);
  }
  return { side, points, counted, taken, adjustment };
}

function countPoints(points: Exact, count: Schedule['count']): Exact {
  switch (count) {
    case 'exact':
      return points;
    case 'completed':
      return whole(floor(points));
    case 'started':
      return whole(ceiling(points));
  }
}

function tellWalk(term: Schedule, value: Exact, walk: Walk | undefined): string {
  const unit = MEASURE_UNITS[term.on];
  const name = `${MEASURE_NAMES[term.on]} ${tell(value)}${unit === '' ? '' : ` ${unit}`}`;
  if (!walk) return `${name} ${tellNeutral(term, value)}`;
  const end = printWritten(walk.side === 'above' ? term.neutral.to : term.neutral.from);
  const counted = term.count === 'exact' ? '' : ` (${tell(walk.counted)} counted)`;
  const steps = walk.taken
    .map(({ points, perPoint }) => `${tell(points)} × ${printWritten(perPoint)}`)
    .join(' + ');
  return `${name} is ${tell(walk.points)} points ${walk.side} ${end}${counted}: ${steps === '' ? '0' : steps}`;
}

function tellNeutral({ neutral }: Schedule, value: Exact): string {
  const [from, to] = [printWritten(neutral.from), printWritten(neutral.to)];
  if (compare(value, decimal(neutral.to)) > 0) return `is above ${to}, where the agreement has no steps`;
  if (compare(value, decimal(neutral.from)) < 0) return `is below ${from}, where the agreement has no steps`;
  return `is within ${from} to ${to}`;
}
