/**
 * The geometry of a season's weeks as bars, with the season before beside them. Pictures alone are worked out from it, so that
 * binary fractions do no harm.
 */
import type { WeekView } from '../../../../usecases/season/season-view.ts';
import { roundFigures } from '../../../charts/round-figures.ts';

export const FRAME = { width: 560, height: 240, left: 78, right: 10, top: 12, bottom: 44 } as const;
/** Beyond so many weeks, those in which nothing came are passed over: the bars would be hairs. */
const MOST_WEEKS = 40;
/** Of a week's room. */
const BAR_SHARE = 0.72;
/** However few the weeks, a bar is a bar and no wall. */
const WIDEST_BAR = 36;
/** Numbers under the bars stand at least so far apart. */
const NUMBER_WIDTH = 34;

export interface Bar {
  readonly key: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface WeekBars {
  readonly now: readonly Bar[];
  /** Empty where there is none to compare with. */
  readonly before: readonly Bar[];
  readonly zero: number;
  readonly up: readonly { readonly at: number; readonly figure: string }[];
  /** The number of a week, under its bars. */
  readonly across: readonly { readonly at: number; readonly nth: number }[];
}

type Week = Pick<WeekView, 'nth' | 'amount'>;

/** Weeks are counted from the first delivery of each season. Undefined where nothing has a value. */
export function weekBars(now: readonly Week[], before: readonly Week[]): WeekBars | undefined {
  const amounts = [...now, ...before].map(({ amount }) => Number(amount));
  const [low, high] = [Math.min(0, ...amounts), Math.max(0, ...amounts)];
  if (low === high) return undefined;
  const room = { from: low - (low < 0 ? (high - low) / 16 : 0), to: high + (high - low) / 16 };
  const y = (amount: number) =>
    tenth(
      FRAME.height -
        FRAME.bottom -
        ((amount - room.from) / (room.to - room.from)) * (FRAME.height - FRAME.bottom - FRAME.top),
    );
  const weeks = slots([...now, ...before].map(({ nth }) => nth));
  const slot = (FRAME.width - FRAME.left - FRAME.right) / weeks.length;
  const bars = before.length > 0 ? 2 : 1;
  const width = Math.min(WIDEST_BAR, (slot * BAR_SHARE) / bars);
  const start = (nth: number) => FRAME.left + weeks.indexOf(nth) * slot + (slot - bars * width) / 2;
  const barOf = ({ nth, amount }: Week, place: number): Bar => {
    const [zero, end] = [y(0), y(Number(amount))];
    return {
      key: String(nth),
      x: tenth(start(nth) + place * width),
      y: Math.min(zero, end),
      width: tenth(width),
      height: tenth(Math.abs(zero - end)),
    };
  };
  const every = Math.max(1, Math.ceil(NUMBER_WIDTH / slot));
  return {
    now: now.map((week) => barOf(week, 0)),
    before: before.map((week) => barOf(week, 1)),
    zero: y(0),
    up: roundFigures(room.from, room.to).map((amount) => ({
      at: y(amount),
      figure: String(Number(amount.toFixed(6))),
    })),
    across: weeks.flatMap((nth, index) =>
      index % every === 0 ? { at: tenth(FRAME.left + (index + 0.5) * slot), nth } : [],
    ),
  };
}

function slots(weeks: readonly number[]): readonly number[] {
  const last = Math.max(...weeks);
  if (last <= MOST_WEEKS) return Array.from({ length: last }, (_, index) => index + 1);
  return [...new Set(weeks)].sort((a, b) => a - b);
}

function tenth(place: number): number {
  return Math.round(place * 10) / 10;
}
