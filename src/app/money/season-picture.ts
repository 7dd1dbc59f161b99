/**
 * The geometry of a season's money: three sums that grow by day, as steps. Pictures alone are worked out from it, so that
 * binary fractions do no harm.
 */
import { dayNumber, type LocalDate } from '../../domain/dates/local-date.ts';
import type { SeasonDay, SeasonMoney } from '../../usecases/money/season-money.ts';
import { roundFigures } from '../charts/round-figures.ts';

export const FRAME = { width: 560, height: 280, left: 78, right: 92, top: 14, bottom: 30 } as const;
/** Names at the ends of lines stand at least so far apart. */
const NAME_HEIGHT = 22;

export const SEASON_LINES = ['delivered', 'invoiced', 'paid'] as const;
export type SeasonLine = (typeof SEASON_LINES)[number];

export interface SeasonPicture {
  readonly lines: readonly {
    readonly line: SeasonLine;
    /** Of a polyline. */
    readonly points: string;
    readonly end: { readonly x: number; readonly y: number };
    /** Where its name stands. */
    readonly nameAt: number;
  }[];
  readonly up: readonly { readonly at: number; readonly figure: string }[];
  readonly across: readonly { readonly at: number; readonly day: string }[];
}

/** From the first day until today, or the last day where that is later. */
export function seasonPicture({ days }: SeasonMoney, today: string): SeasonPicture | undefined {
  const [first, last] = [days[0], days.at(-1)];
  if (!first || !last) return undefined;
  const until = last.day < today ? today : last.day;
  const [from, to] = [dayNumber(first.day), dayNumber(until as LocalDate)];
  const sums = days.flatMap((day) => SEASON_LINES.map((line) => Number(day[line])));
  const [low, high] = [Math.min(0, ...sums), Math.max(0, ...sums)];
  if (from === to || low === high) return undefined;
  const x = (day: string) =>
    place((dayNumber(day as LocalDate) - from) / (to - from), FRAME.left, FRAME.width - FRAME.right);
  const y = (sum: number) =>
    place((sum - low) / ((high - low) * 1.05), FRAME.height - FRAME.bottom, FRAME.top);
  const lines = SEASON_LINES.map((line) => {
    const end = { x: x(until), y: y(Number(last[line])) };
    return { line, points: steps(days, { line, x, y, end }), end };
  });
  return {
    lines: apart(lines),
    up: roundFigures(low, high).map((sum) => ({ at: y(sum), figure: String(Math.round(sum * 100) / 100) })),
    across: [first.day, until].map((day) => ({ at: x(day), day })),
  };
}

/** A sum holds until the day on which it changes. */
function steps(
  days: readonly SeasonDay[],
  to: {
    readonly line: SeasonLine;
    readonly x: (day: string) => number;
    readonly y: (sum: number) => number;
    readonly end: { readonly x: number; readonly y: number };
  },
): string {
  let before = to.y(0);
  const points = days.flatMap((day) => {
    const [at, sum] = [to.x(day.day), to.y(Number(day[to.line]))];
    const turn = [`${at},${before}`, `${at},${sum}`];
    before = sum;
    return turn;
  });
  return [...points, `${to.end.x},${to.end.y}`].join(' ');
}

/** Names that would lie over one another give way upwards, the highest line's most, and all of them down from the edge. */
function apart<Line extends { readonly end: { readonly y: number } }>(
  lines: readonly Line[],
): readonly (Line & { readonly nameAt: number })[] {
  let free: number = FRAME.height;
  const named = lines
    .toSorted((a, b) => b.end.y - a.end.y)
    .map((line) => {
      const nameAt = Math.min(line.end.y, free - NAME_HEIGHT);
      free = nameAt;
      return { ...line, nameAt };
    });
  const down = Math.max(0, FRAME.top - free);
  return named.map((line) => ({ ...line, nameAt: line.nameAt + down }));
}

function place(share: number, from: number, to: number): number {
  return Math.round((from + share * (to - from)) * 10) / 10;
}
