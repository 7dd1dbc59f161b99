/**
 * Slips of the hand over digits. Each takes the digits of two figures, written to the same number of decimals without
 * their point, and says whether the one can be the other with a single slip.
 */
import type { SlipDetail } from './cause.ts';

export type DigitSlip =
  | 'point-moved'
  | 'digits-transposed'
  | 'digit-mistyped'
  | 'digit-doubled'
  | 'digit-dropped';

/** "4712" for "47120", "471200" for "47120": the same digits, of another size. */
export function isPointMoved(own: string, other: string): boolean {
  const bare = (digits: string) => digits.replace(/0+$/, '');
  return own !== other && bare(own) !== '' && bare(own) === bare(other);
}

/** "41720" for "47120": two digits have changed places, next to each other or not. */
export function isTransposed(own: string, other: string): boolean {
  const at = differing(own, other, 2);
  if (at?.length !== 2) return false;
  const [first = 0, second = 0] = at;
  return own[first] === other[second] && own[second] === other[first];
}

/** "47170" for "47120". */
export function isMistyped(own: string, other: string): boolean {
  return differing(own, other, 1)?.length === 1;
}

/** "471120" for "47120": one digit stands twice in a row. */
export function isDoubled(own: string, other: string): boolean {
  if (own.length !== other.length + 1) return false;
  const at = firstDifference(own, other);
  return at > 0 && own[at] === own[at - 1] && own.slice(at + 1) === other.slice(at);
}

/** "4720" for "47120": one digit is left out. */
export function isDropped(own: string, other: string): boolean {
  if (own.length !== other.length - 1) return false;
  const at = firstDifference(other, own);
  return own.slice(at) === other.slice(at + 1);
}

/** Places where two texts of one length differ; undefined for other lengths, or where they are more than `most`. */
function differing(own: string, other: string, most: number): number[] | undefined {
  if (own.length !== other.length) return undefined;
  const at: number[] = [];
  for (let index = 0; index < own.length; index++) {
    if (own[index] === other[index]) continue;
    if (at.length === most) return undefined;
    at.push(index);
  }
  return at;
}

/** How far the longer text begins as the shorter does. */
function firstDifference(longer: string, shorter: string): number {
  let at = 0;
  while (at < shorter.length && longer[at] === shorter[at]) at++;
  return at;
}

const SLIPS: Readonly<Record<DigitSlip, (own: string, other: string) => boolean>> = {
  'point-moved': isPointMoved,
  'digits-transposed': isTransposed,
  'digit-mistyped': isMistyped,
  'digit-doubled': isDoubled,
  'digit-dropped': isDropped,
};

/** Two figures as digits, and which of a ticket's they are. */
export interface DigitPair {
  readonly own: string;
  readonly other: string;
  readonly detail: SlipDetail;
}

/** The detail of the first pair that the slip explains. */
export function digitSlip(slip: DigitSlip, pairs: readonly DigitPair[]): SlipDetail | undefined {
  return pairs.find(({ own, other }) => SLIPS[slip](own, other))?.detail;
}

/** The five slips as trials over what a side's figures are as digits. */
export function digitTrials<Side>(
  pairsOf: (own: Side, other: Side) => readonly DigitPair[],
): Readonly<Record<DigitSlip, (own: Side, other: Side) => SlipDetail | undefined>> {
  const trial = (slip: DigitSlip) => (own: Side, other: Side) => digitSlip(slip, pairsOf(own, other));
  return {
    'point-moved': trial('point-moved'),
    'digits-transposed': trial('digits-transposed'),
    'digit-mistyped': trial('digit-mistyped'),
    'digit-doubled': trial('digit-doubled'),
    'digit-dropped': trial('digit-dropped'),
  };
}
