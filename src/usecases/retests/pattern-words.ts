/**
 * What is said of two laboratories or scales that met often. Careful words: chance is named first, and what is shown is that
 * two differ, never which of them is right.
 */
import { MEASURE_NAMES } from '../../domain/agreement/measures.ts';
import type { Questioned } from '../../domain/agreement/retest-rules.ts';
import { compare, decimal, type Exact, isNegative, isZero, negate } from '../../domain/numbers/exact.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import { roundToUnits } from '../../domain/numbers/rounding.ts';
import type { Pattern } from '../../domain/retests/patterns.ts';
import type { RetestMeeting } from './meetings.ts';

/** So many meetings before a test is shown: with five all one way, chance still gives as much 1 time in 16. */
export const ENOUGH_MEETINGS = 5;

/** Below the first chance is hard to believe in, above the second it is all that is needed. */
const HARDLY_CHANCE = decimal('0.05');
const EASILY_CHANCE = decimal('0.2');

export interface PatternSaid {
  /** "7 of 8 times Alder Bench reported more starch than Bell Reach Referees.", and by how much on average. */
  readonly split: string;
  /** What chance alone would do, and what to make of it; or that the meetings are too few. */
  readonly chance: string;
}

export interface PatternPrinting {
  readonly show: (decimal: string) => string;
  /** Decimals of the most precise figure. */
  readonly places: number;
}

export function patternWords(pattern: Pattern, printing: PatternPrinting): PatternSaid {
  return {
    split: `${splitWords(pattern)} ${meanWords(pattern, printing)}`.trim(),
    chance: chanceWords(pattern),
  };
}

function splitWords({ about, one, other, above, below, equal, differences }: Pattern): string {
  const count = differences.length;
  const more = (what: 'more' | 'less') =>
    `${about === 'weight' ? 'showed' : 'reported'} ${amountOf(about, what)}`;
  if (equal === count) {
    return count === 1
      ? `The one time they met, ${one} and ${other} ${about === 'weight' ? 'showed' : 'reported'} the same.`
      : `All ${count} times ${one} and ${other} ${about === 'weight' ? 'showed' : 'reported'} the same.`;
  }
  const [most, least] = above > below ? [other, one] : [one, other];
  const often = Math.max(above, below);
  if (above === below) {
    return `${inTimes(above)} each of ${one} and ${other} ${more('more')} than the other.${equalWords(equal)}`;
  }
  const how =
    often < count
      ? `${often} of ${count} times`
      : count === 1
        ? 'The one time they met,'
        : `All ${count} times`;
  return `${how} ${most} ${more('more')} than ${least}.${equalWords(equal)}`;
}

function inTimes(count: number): string {
  return count === 1 ? 'Once' : `${count} times`;
}

function equalWords(equal: number): string {
  if (equal === 0) return '';
  return equal === 1 ? ' Once they agreed.' : ` ${equal} times they agreed.`;
}

/** About whoever read higher on average, which need not be who did so more often. */
function meanWords(
  { mean, one, other, unit, equal, differences }: Pattern,
  printing: PatternPrinting,
): string {
  if (equal === differences.length) return '';
  if (isZero(mean)) return 'On average they are level.';
  const by = isNegative(mean) ? negate(mean) : mean;
  const who = isNegative(mean) ? one : other;
  const figure = withUnit(printing.show(roundedMean(by, printing.places)), unit);
  return `${differences.length === 1 ? 'It' : `On average ${who}`} was ${figure} higher.`;
}

/** With the decimals of the figures; with two more where that would leave nothing of it. */
function roundedMean(mean: Exact, places: number): string {
  const rounded = printDecimal(mean, places);
  return rounded === '0' ? printDecimal(mean, places + 2) : rounded;
}

/** "1.3 points", "160 lb": a difference of two figures in a unit. */
export function withUnit(figure: string, unit: string): string {
  if (unit.startsWith('%')) return `${figure} ${figure === '1' ? 'point' : 'points'}`;
  return unit === '' ? figure : `${figure} ${unit}`;
}

function amountOf(about: Questioned, what: 'more' | 'less'): string {
  const isMore = what === 'more';
  switch (about) {
    case 'weight':
      return isMore ? 'more weight' : 'less weight';
    case 'ph':
      return isMore ? 'a higher pH' : 'a lower pH';
    case 'particle-size':
      return isMore ? 'a larger particle size' : 'a smaller particle size';
    default:
      return `${what} ${MEASURE_NAMES[about]}`;
  }
}

function chanceWords({ differences, signTest }: Pattern): string {
  if (differences.length < ENOUGH_MEETINGS) {
    return `Too few to tell: from ${ENOUGH_MEETINGS} meetings on, this page says what chance alone would do.`;
  }
  if (!signTest) return 'Nothing here speaks for a difference.';
  if (compare(signTest, decimal('0.995')) >= 0) return 'Chance alone makes it no more even than this.';
  return `If neither read higher as a rule, chance alone would make it as one-sided as this ${oddsWords(signTest)}. ${gradeWords(signTest)}`;
}

function gradeWords(p: Exact): string {
  if (compare(p, HARDLY_CHANCE) <= 0) {
    return 'That is hard to put down to chance. It shows that the two differ, not which of them is right.';
  }
  if (compare(p, EASILY_CHANCE) <= 0) return 'It may be chance, or not: more meetings would tell.';
  return 'That happens easily: nothing is shown here.';
}

/**
 * Where every figure of one was questioned for lying off to the side to which the two differ, that alone makes a difference:
 * figures that are picked for being high come out lower the second time. Undefined elsewhere.
 */
export function doubtWords({ one, above, below, differences }: Pattern<RetestMeeting>): string | undefined {
  const [first] = differences;
  const isSame = differences.every(({ of }) => of.one === one && of.doubted === first?.of.doubted);
  const doubted = above > below ? 'too-low' : 'too-high';
  if (!isSame || above === below || first?.of.doubted !== doubted) return undefined;
  const [as, out] = doubted === 'too-high' ? ['too high', 'lower'] : ['too low', 'higher'];
  return `But all ${differences.length} figures of ${one} were questioned as ${as}, and figures that are picked for that come out ${out} the second time, even between two that agree. Samples that both test without a question would tell more.`;
}

/** "about 7 times in 100", "about 3 times in 1,000", "less than once in 1,000". */
export function oddsWords(p: Exact): string {
  if (compare(p, decimal('0.0005')) < 0) return 'less than once in 1,000';
  const [places, of] = compare(p, decimal('0.0095')) < 0 ? [3, '1,000'] : [2, '100'];
  const times = roundToUnits(p, places, 'half-up');
  return `about ${times === 1n ? 'once' : `${times} times`} in ${of}`;
}
