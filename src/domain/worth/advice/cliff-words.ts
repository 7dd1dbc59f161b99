/**
 * A cliff in sentences: what jumps, how wide the laboratories scatter there, and what to agree instead.
 */
import type { Measure } from '../../agreement/measures.ts';
import { MEASURE_NAMES } from '../../agreement/measures.ts';
import { HUNDRED, isZero, subtract } from '../../numbers/exact.ts';
import { printDecimal, printFixed } from '../../numbers/printing.ts';
import { laboratoryScatter, type Scatter } from '../laboratory-scatter.ts';
import type { Advice } from './advice.ts';
import { type Cliff, findCliffs } from './cliffs.ts';
import { type Ground, tellFigure } from './ground.ts';

/** One warning for each term that jumps. */
export function adviseOnCliffs(ground: Ground): Advice[] {
  return findCliffs(ground).map((cliff) => ({ kind: 'cliff', message: tellCliff(ground, cliff) }));
}

function tellCliff(ground: Ground, cliff: Cliff): string {
  const { measure, term, jump, places } = cliff;
  const as = measureInWords(cliff);
  const [low, high] =
    as === 'moisture'
      ? [subtract(HUNDRED, cliff.high), subtract(HUNDRED, cliff.low)]
      : [cliff.low, cliff.high];
  const scatter = laboratoryScatter(measure, cliff.low);
  return [
    `“${term.label}” jumps by ${ground.tellMoney(jump)} for ${ground.loadInWords} between ${printDecimal(low, 2)} and ${tellFigure(as, high)}.`,
    ...(places > 1 ? [`There are ${places} such steps in the range that this feed is seen in.`] : []),
    tellScatter(ground, { cliff, scatter, name: MEASURE_NAMES[as] }),
    tellRemedy(cliff, scatter),
  ].join(' ');
}

/** Dry matter is called moisture where the term is written in moisture. */
function measureInWords({ measure, term }: Cliff): Measure {
  if (measure !== 'dry-matter') return measure;
  const byMoisture =
    (term.term === 'schedule' && term.on === 'moisture') ||
    (term.term === 'equivalent-bushels' && term.method.kind !== 'dry-matter');
  return byMoisture ? 'moisture' : measure;
}

interface Told {
  readonly cliff: Cliff;
  readonly scatter: Scatter | undefined;
  readonly name: string;
}

function tellScatter(ground: Ground, { cliff, scatter, name }: Told): string {
  if (!scatter || !cliff.elsewhere) {
    return `No published limit is known here for how far laboratories differ on ${name}; none of them tells so small a difference apart, so chance decides who gets the money.`;
  }
  const moved = isZero(cliff.elsewhere) ? 'nothing' : ground.tellMoney(cliff.elsewhere);
  return `${tellTwoTests(scatter, name)}. Away from the step, the smaller of these moves ${moved}; so chance decides who gets the money.`;
}

/** "Two tests of one sample can lie 1.0 to 6.3 points of NDF apart (AOAC 2002.04, Mertens 2002)" */
export function tellTwoTests(scatter: Scatter, name: string): string {
  return `Two tests of one sample can lie ${tellSpread(scatter)} of ${name} apart (${scatter.source})`;
}

/** "0.7 to 1.3 points", or one figure where both print the same. */
function tellSpread({ low, high }: Scatter): string {
  const [from, to] = [printFixed(low, 1), printFixed(high, 1)];
  return from === to ? `${from} points` : `${from} to ${to} points`;
}

function tellRemedy({ measure, term }: Cliff, scatter: Scatter | undefined): string {
  const band = scatter
    ? `, or leave a band of at least ${printFixed(scatter.low, 1)} points between one step and the next in which nothing changes`
    : '';
  if (term.term === 'schedule' && term.count !== 'exact') {
    return `Count fractions of a point, so that the price slopes${band}.`;
  }
  if (term.term === 'equivalent-bushels') {
    const rowByRow = term.method.kind === 'table' && term.method.between === 'next-wetter';
    if (rowByRow) return 'Read between the rows of the table in proportion, or take rows closer together.';
    if (term.bushelDecimals !== undefined)
      return 'Round the bushels to two decimals, or not at all before the amount.';
  }
  return `Keep the test of ${MEASURE_NAMES[measure]} to one decimal more.`;
}
