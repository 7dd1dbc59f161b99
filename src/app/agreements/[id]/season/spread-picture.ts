/**
 * The geometry of a test by day of delivery: from the least to the greatest result, the middle one and the mean. Pictures
 * alone are worked out from it, so that binary fractions do no harm.
 */
import type { SpreadRow } from '../../../../usecases/season/season-view.ts';
import { roundFigures } from '../../../charts/round-figures.ts';

export const FRAME = { width: 560, height: 220, left: 62, right: 16, top: 12, bottom: 30 } as const;

export interface SpreadPicture {
  /** Half the width of the mark at the middle one. */
  readonly halfMark: number;
  readonly stalks: readonly {
    readonly key: string;
    readonly x: number;
    readonly least: number;
    readonly median: number;
    readonly greatest: number;
    readonly mean: number;
  }[];
  readonly up: readonly { readonly at: number; readonly figure: string }[];
  /** The first day and the last. */
  readonly across: readonly { readonly at: number; readonly day: string; readonly anchor: 'start' | 'end' }[];
}

/** Days stand one beside the other, whatever lies between them. Undefined of fewer than two days. */
export function spreadPicture(days: readonly SpreadRow[]): SpreadPicture | undefined {
  const [first, last] = [days[0], days.at(-1)];
  if (!first || !last || days.length < 2) return undefined;
  const values = days.flatMap(({ plain }) => [Number(plain.least), Number(plain.greatest)]);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const room = high - low || 2;
  const [bottom, top] = [low - room / 8, high + room / 8];
  const y = (text: string | number) =>
    tenth(
      FRAME.height -
        FRAME.bottom -
        ((Number(text) - bottom) / (top - bottom)) * (FRAME.height - FRAME.bottom - FRAME.top),
    );
  const slot = (FRAME.width - FRAME.left - FRAME.right) / days.length;
  return {
    halfMark: tenth(Math.min(6, slot * 0.4)),
    stalks: days.map(({ of, plain }, index) => ({
      key: of,
      x: tenth(FRAME.left + (index + 0.5) * slot),
      least: y(plain.least),
      median: y(plain.median),
      greatest: y(plain.greatest),
      mean: y(plain.mean),
    })),
    up: roundFigures(bottom, top).map((value) => ({
      at: y(value),
      figure: String(Number(value.toFixed(6))),
    })),
    across: [
      { at: FRAME.left, day: first.of, anchor: 'start' },
      { at: FRAME.width - FRAME.right, day: last.of, anchor: 'end' },
    ],
  };
}

function tenth(place: number): number {
  return Math.round(place * 10) / 10;
}
