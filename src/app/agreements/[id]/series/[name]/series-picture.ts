/**
 * The geometry of a price series' chart: price against days within a frame. Pictures alone are worked out from it, so
 * that binary fractions do no harm.
 */
import { dayNumber, type LocalDate } from '../../../../../domain/dates/local-date.ts';
import { roundFigures } from '../../../../charts/round-figures.ts';

export const FRAME = { width: 640, height: 240, left: 56, right: 16, top: 12, bottom: 30 } as const;

export interface SeriesPicture {
  /** Of a polyline; a price holds until the next one, so it goes in steps. */
  readonly line: string;
  readonly spots: readonly {
    readonly x: number;
    readonly y: number;
    readonly date: string;
    readonly price: string;
  }[];
  readonly up: readonly { readonly at: number; readonly label: string }[];
  readonly across: readonly { readonly at: number; readonly label: string }[];
}

/** Undefined of fewer than two quotes: there is nothing to draw. */
export function seriesPicture(
  points: readonly { readonly date: string; readonly price: string }[],
): SeriesPicture | undefined {
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last || points.length < 2) return undefined;
  const prices = points.map(({ price }) => Number(price));
  const [low, high] = [Math.min(...prices), Math.max(...prices)];
  const room = high - low || Math.max(0.01, high / 10);
  const [bottom, top] = [low - room / 8, high + room / 8];
  const [from, to] = [dayNumber(first.date as LocalDate), dayNumber(last.date as LocalDate)];
  const x = (date: string) =>
    place((dayNumber(date as LocalDate) - from) / (to - from || 1), FRAME.left, FRAME.width - FRAME.right);
  const y = (price: number) =>
    place((price - bottom) / (top - bottom), FRAME.height - FRAME.bottom, FRAME.top);
  const spots = points.map(({ date, price }) => ({ x: x(date), y: y(Number(price)), date, price }));
  const line = spots.flatMap((spot, index) => {
    const before = spots[index - 1];
    return before ? [`${spot.x},${before.y}`, `${spot.x},${spot.y}`] : [`${spot.x},${spot.y}`];
  });
  const middle = points[Math.floor(points.length / 2)] ?? first;
  const dates = points.length > 2 ? [first, middle, last] : [first, last];
  return {
    line: line.join(' '),
    spots,
    up: roundFigures(bottom, top).map((value) => ({ at: y(value), label: String(Number(value.toFixed(6))) })),
    across: dates.map(({ date }) => ({ at: x(date), label: date })),
  };
}

function place(share: number, from: number, to: number): number {
  return Math.round((from + share * (to - from)) * 10) / 10;
}
