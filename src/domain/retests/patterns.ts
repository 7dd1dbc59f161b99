/**
 * Two laboratories, or two scales, that meet often in retests: how their figures of the same material differ, and how likely
 * chance alone makes such a row of differences. Differences are exact. It says that two differ, never which of them is right.
 */
import type { Questioned } from '../agreement/retest-rules.ts';
import type { LocalDate } from '../dates/local-date.ts';
import {
  add,
  divide,
  type Exact,
  isNegative,
  isZero,
  multiply,
  ONE,
  ratio,
  smaller,
  subtract,
  whole,
  ZERO,
} from '../numbers/exact.ts';
import { printDecimal } from '../numbers/printing.ts';
import { meanOf } from './figures.ts';
import { outsideT } from './student-t.ts';

/** Two figures of one thing by two laboratories or scales. */
export interface Meeting {
  readonly about: Questioned;
  /** Of both figures: those of one unit are compared with one another alone. */
  readonly unit: string;
  /** Names; blanks around them count for nothing. */
  readonly one: string;
  readonly other: string;
  readonly oneValue: Exact;
  readonly otherValue: Exact;
  readonly on: LocalDate;
}

/** A meeting with its figures in the order of its pair. */
export interface Difference<Met extends Meeting = Meeting> {
  readonly of: Met;
  readonly oneValue: Exact;
  readonly otherValue: Exact;
  /** The other's less the one's. */
  readonly difference: Exact;
}

export interface Pattern<Met extends Meeting = Meeting> extends Pick<Meeting, 'about' | 'unit'> {
  /** Whose figure was questioned when the two met first. */
  readonly one: string;
  readonly other: string;
  /** The first first. */
  readonly differences: readonly Difference<Met>[];
  readonly mean: Exact;
  /** How often the other's figure was above the one's, below it, equal to it. */
  readonly above: number;
  readonly below: number;
  readonly equal: number;
  /** Two-sided; undefined where all are equal. */
  readonly signTest: Exact | undefined;
  /** Undefined of fewer than two, and where all differences are the same. */
  readonly tTest: PairedT | undefined;
}

export interface PairedT {
  readonly t: number;
  readonly freedom: number;
  /** Two-sided. */
  readonly p: number;
}

/**
 * Every pair of names with its meetings about one measure: those that met most often first. Meetings of a name with itself or
 * with none are no meetings of two.
 */
export function patternsOf<Met extends Meeting>(meetings: readonly Met[]): readonly Pattern<Met>[] {
  const groups = new Map<string, Met[]>();
  for (const meeting of meetings.toSorted((a, b) => compareText(a.on, b.on))) {
    const names = [meeting.one.trim(), meeting.other.trim()].sort(compareText);
    if (names[0] === '' || names[0] === names[1]) continue;
    const key = JSON.stringify([meeting.about, meeting.unit, ...names]);
    const group = groups.get(key);
    if (group) group.push(meeting);
    else groups.set(key, [meeting]);
  }
  // Sorting keeps those that met as often in the order in which they met first.
  return [...groups.values()].flatMap(patternOf).sort((a, b) => b.differences.length - a.differences.length);
}

function patternOf<Met extends Meeting>(meetings: readonly Met[]): readonly Pattern<Met>[] {
  const [first] = meetings;
  if (!first) return [];
  const [one, other] = [first.one.trim(), first.other.trim()];
  const differences = meetings.map((of): Difference<Met> => {
    const [oneValue, otherValue] =
      of.one.trim() === one ? [of.oneValue, of.otherValue] : [of.otherValue, of.oneValue];
    return { of, oneValue, otherValue, difference: subtract(otherValue, oneValue) };
  });
  const values = differences.map(({ difference }) => difference);
  const equal = values.filter(isZero).length;
  const below = values.filter(isNegative).length;
  const above = values.length - equal - below;
  return [
    {
      about: first.about,
      unit: first.unit,
      one,
      other,
      differences,
      mean: meanOf(values),
      above,
      below,
      equal,
      signTest: signTest(above, below),
      tTest: pairedT(values),
    },
  ];
}

/**
 * The sign test: how likely a split at least as uneven is, either way, where above and below are equally likely. Ties are left
 * out beforehand. 7 above and 1 below: 2 (1 + 8) ÷ 256 = 0.0703125. Undefined for none of either.
 */
export function signTest(above: number, below: number): Exact | undefined {
  const count = above + below;
  if (count === 0) return undefined;
  let ways = 1n;
  let sum = 0n;
  for (let fewer = 0; fewer <= Math.min(above, below); fewer++) {
    sum += ways;
    ways = (ways * BigInt(count - fewer)) / BigInt(fewer + 1);
  }
  return smaller(ONE, ratio(2n * sum, 2n ** BigInt(count)));
}

/**
 * The paired t test: the mean of the differences by its standard error. 1.2 2.4 1.3 1.3 0.0 1.0 1.8 0.8 4.6 1.4 give t = 4.0621
 * on 9 degrees of freedom and p = 0.0028. Undefined of fewer than two, and where all are the same: they have no scatter.
 */
export function pairedT(differences: readonly Exact[]): PairedT | undefined {
  const freedom = differences.length - 1;
  const sum = differences.reduce(add, ZERO);
  const squares = differences.map((one) => multiply(one, one)).reduce(add, ZERO);
  const sumSquared = multiply(sum, sum);
  // t² = S² (n − 1) ÷ (n Σd² − S²), exact until its root is taken.
  const scatter = subtract(multiply(whole(differences.length), squares), sumSquared);
  if (freedom < 1 || isZero(scatter)) return undefined;
  const root = Math.sqrt(nearly(divide(multiply(sumSquared, whole(freedom)), scatter)));
  return { t: isNegative(sum) ? -root : root, freedom, p: outsideT(root, freedom) };
}

/** The binary number next to an exact one, for statistics alone. */
function nearly(value: Exact): number {
  return Number(printDecimal(value, 20));
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : Number(a > b);
}
