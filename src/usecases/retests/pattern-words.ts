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
  const read = readBy(about);
  const all = count === 1 ? 'The one time they met,' : count === 2 ? 'Both times' : `All ${count} times`;
  if (equal === count) return `${all} ${one} and ${other} ${read} the same.`;
  const more = `${read} ${moreOf(about)}`;
  if (above === below)
    return `${inTimes(above)} each of ${one} and ${other} ${more} than the other.${equalWords(equal)}`;
  const [most, least] = above > below ? [other, one] : [one, other];
  const [often, rare] = [Math.max(above, below), Math.min(above, below)];
  const how = often < count ? `${often} of ${count} times` : all;
  const rest = rare === 0 ? '' : `, and ${inTimes(rare).toLowerCase()} the other way round`;
  return `${how} ${most} ${more} than ${least}${rest}.${equalWords(equal)}`;
}

function readBy(about: Questioned): string {
  return about === 'weight' ? 'showed' : 'reported';
}

function inTimes(count: number): string {
  return count === 1 ? 'Once' : count === 2 ? 'Twice' : `${count} times`;
}

function equalWords(equal: number): string {
  return equal === 0 ? '' : ` ${inTimes(equal)} they agreed.`;
}

/** About whoever read higher on average, which need not be who did so more often. */
function meanWords(pattern: Pattern, { show, places }: PatternPrinting): string {
  const { about, mean, one, other, unit, equal, differences } = pattern;
  if (equal === differences.length) return '';
  if (isZero(mean)) return 'On average they are level.';
  const [who, by] = isNegative(mean) ? [one, negate(mean)] : [other, mean];
  const figure = withUnit(show(roundedMean(by, places)), unit);
  return `${differences.length === 1 ? 'It' : `On average ${who}`} ${readBy(about)} ${figure} more.`;
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

function moreOf(about: Questioned): string {
  switch (about) {
    case 'weight':
      return 'more weight';
    case 'ph':
      return 'a higher pH';
    case 'particle-size':
      return 'a larger particle size';
    default:
      return `more ${MEASURE_NAMES[about]}`;
  }
}

function chanceWords({ differences, signTest, tTest }: Pattern): string {
  if (differences.length < ENOUGH_MEETINGS) {
    return `Too few to tell: from ${ENOUGH_MEETINGS} meetings on, this page says what chance alone would do.`;
  }
  if (!signTest) return 'Nothing here speaks for a difference.';
  if (compare(signTest, decimal('0.995')) >= 0) {
    return 'Neither reads higher as a rule: chance alone gives a split like this.';
  }
  const byMuch = tTest && decimal(tTest.p.toFixed(6));
  const odds = `If neither read higher as a rule, chance alone would make it as one-sided as this ${oddsWords(signTest)}.`;
  const apart = byMuch ? ` Going by how far apart they are as well, ${oddsWords(byMuch)}.` : '';
  return `${odds}${apart} ${gradeWords(byMuch ? [signTest, byMuch] : [signTest])}`;
}

/** Both tests must say so: whoever may choose the one that suits finds something too often. */
function gradeWords(chances: readonly Exact[]): string {
  if (chances.every((p) => compare(p, HARDLY_CHANCE) <= 0)) {
    return 'That is hard to put down to chance. It shows that the two differ, not which of them is right.';
  }
  if (chances.every((p) => compare(p, EASILY_CHANCE) > 0))
    return 'That happens easily: nothing is shown here.';
  return 'It may be chance, or not: more meetings would tell.';
}

/**
 * Where every figure of one was questioned for lying off to the side to which the two differ, that alone makes a difference:
 * figures that are picked for being high come out lower the second time. Undefined elsewhere.
 */
export function doubtWords({
  about,
  one,
  above,
  below,
  differences,
}: Pattern<RetestMeeting>): string | undefined {
  const [first] = differences;
  const isSame = differences.every(({ of }) => of.one === one && of.doubted === first?.of.doubted);
  const doubted = above > below ? 'too-low' : 'too-high';
  if (!isSame || above === below || first?.of.doubted !== doubted) return undefined;
  const [as, out] = doubted === 'too-high' ? ['too high', 'lower'] : ['too low', 'higher'];
  const unasked = about === 'weight' ? 'Trucks that are weighed on both' : 'Samples that both test';
  return `All ${differences.length} figures of ${one} were questioned as ${as}, and figures that are picked for that come out ${out} the second time even between two that agree. ${unasked} without a question would tell more.`;
}

/** "about 7 times in 100", "about 3 times in 1,000", "less than once in 1,000". */
export function oddsWords(p: Exact): string {
  if (compare(p, decimal('0.0005')) < 0) return 'less than once in 1,000';
  const [places, of] = compare(p, decimal('0.0095')) < 0 ? [3, '1,000'] : [2, '100'];
  const times = roundToUnits(p, places, 'half-up');
  return `about ${times === 1n ? 'once' : `${times} times`} in ${of}`;
}
