/**
 * The geometry of differences by date around a line at zero. Pictures alone are worked out from it, so that binary fractions do
 * no harm.
 */
import { dayNumber, type LocalDate } from '../../../domain/dates/local-date.ts';
import { roundFigures } from '../../charts/round-figures.ts';

export const FRAME = { width: 560, height: 220, left: 78, right: 16, top: 12, bottom: 30 } as const;
/** Meetings of one day stand so far apart, so that none hides another. */
const BESIDE = 9;

export interface DifferencesPicture {
  readonly zero: number;
  readonly mean: number;
  readonly spots: readonly { readonly key: string; readonly x: number; readonly y: number }[];
  readonly up: readonly { readonly at: number; readonly figure: string }[];
  readonly across: readonly {
    readonly at: number;
    readonly day: string;
    readonly anchor: 'start' | 'middle' | 'end';
  }[];
}

export interface DifferenceDrawn {
  readonly key: string;
  readonly on: LocalDate;
  /** A decimal string. */
  readonly difference: string;
}

/** Undefined of fewer than two: there is nothing to compare by eye. */
export function differencesPicture(
  differences: readonly DifferenceDrawn[],
  mean: string,
): DifferencesPicture | undefined {
  const [first, last] = [differences[0], differences.at(-1)];
  if (!first || !last || differences.length < 2) return undefined;
  const values = differences.map(({ difference }) => Number(difference));
  const [low, high] = [Math.min(0, ...values), Math.max(0, ...values)];
  // Where all are the same there is no span to go by: the line at zero stands in the middle.
  const room = high - low || 2;
  const [bottom, top] = high === low ? [-1, 1] : [low - room / 8, high + room / 8];
  const y = (value: number) =>
    place((value - bottom) / (top - bottom), FRAME.height - FRAME.bottom, FRAME.top);
  const [from, to] = [dayNumber(first.on), dayNumber(last.on)];
  const [start, end] = [FRAME.left + 14, FRAME.width - FRAME.right - 14];
  const x = (day: LocalDate) =>
    from === to ? (start + end) / 2 : place((dayNumber(day) - from) / (to - from), start, end);
  const spots = differences.map(({ key, on, difference }, index) => {
    const sameDay = differences.filter((one) => one.on === on);
    const nth = sameDay.indexOf(differences[index] ?? first);
    return { key, x: x(on) + (nth - (sameDay.length - 1) / 2) * BESIDE, y: y(Number(difference)) };
  });
  const ends = from === to ? [first] : [first, last];
  return {
    zero: y(0),
    mean: y(Number(mean)),
    spots,
    up: roundFigures(bottom, top, 6).map((value) => ({
      at: y(value),
      figure: String(Number(value.toFixed(6))),
    })),
    across: ends.map(({ on }, index) => ({
      at: from === to ? (start + end) / 2 : index === 0 ? FRAME.left : FRAME.width - FRAME.right,
      day: on,
      anchor: from === to ? 'middle' : index === 0 ? 'start' : 'end',
    })),
  };
}

function place(share: number, from: number, to: number): number {
  return Math.round((from + share * (to - from)) * 10) / 10;
}
