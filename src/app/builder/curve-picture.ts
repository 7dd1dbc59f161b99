/**
 * The geometry of the chart: price against starch as lines within a frame, with marks at round figures. Pictures alone
 * are worked out from it, so binary fractions do no harm.
 */

import { printDecimal } from '../../domain/numbers/printing.ts';
import type { CurvePoint } from '../../domain/worth/price-grid.ts';
import type { Mark } from '../charts/chart-axes.tsx';

export const FRAME = { width: 420, height: 250, left: 52, right: 74, top: 14, bottom: 40 } as const;

export interface ChartLine {
  /** The points of a polyline; several where some feed has no price. */
  readonly pieces: readonly string[];
  /** Where the line ends, for its name. */
  readonly end: { readonly x: number; readonly y: number } | undefined;
}

export interface Chart {
  readonly after: ChartLine;
  readonly before: ChartLine | undefined;
  readonly across: readonly Mark[];
  readonly up: readonly Mark[];
}

interface Spot {
  readonly starch: number;
  readonly price: number | undefined;
}

/** The two curves on one scale; undefined where neither has two points to draw. */
export function chartOf(
  after: readonly CurvePoint[],
  before: readonly CurvePoint[] | undefined,
): Chart | undefined {
  const [spots, earlier] = [spotsOf(after), before && spotsOf(before)];
  const all = [...spots, ...(earlier ?? [])];
  const prices = all.flatMap(({ price }) => price ?? []);
  if (prices.length < 2) return undefined;
  const starches = all.map(({ starch }) => starch);
  const across = scaleOf(Math.min(...starches), Math.max(...starches), {
    from: FRAME.left,
    to: FRAME.width - FRAME.right,
  });
  const [low, high] = [Math.min(...prices), Math.max(...prices)];
  // A flat price is a level line in the middle.
  const room = high - low || Math.max(1, Math.abs(high) / 10);
  const up = scaleOf(low - room / 10, high + room / 10, { from: FRAME.height - FRAME.bottom, to: FRAME.top });
  const line = (of: readonly Spot[]) => lineOf(of, { across, up });
  const lines = { after: line(spots), before: earlier && line(earlier) };
  return { ...apart(lines), across: marksOf(across, 6), up: marksOf(up, 5) };
}

function spotsOf(points: readonly CurvePoint[]): Spot[] {
  return points.map(({ starch, price }) => ({
    starch: Number(printDecimal(starch)),
    price: price.impossible === undefined ? Number(printDecimal(price.perTonDry)) : undefined,
  }));
}

interface Scale {
  readonly low: number;
  readonly high: number;
  readonly place: (value: number) => number;
}

function scaleOf(
  low: number,
  high: number,
  { from, to }: { readonly from: number; readonly to: number },
): Scale {
  const place = (value: number) =>
    Math.round((from + ((value - low) / (high - low || 1)) * (to - from)) * 10) / 10;
  return { low, high, place };
}

function lineOf(
  spots: readonly Spot[],
  { across, up }: { readonly across: Scale; readonly up: Scale },
): ChartLine {
  const pieces: string[][] = [[]];
  let end: ChartLine['end'];
  for (const { starch, price } of spots) {
    if (price === undefined) {
      pieces.push([]);
      continue;
    }
    end = { x: across.place(starch), y: up.place(price) };
    pieces.at(-1)?.push(`${end.x},${end.y}`);
  }
  return { pieces: pieces.filter((piece) => piece.length > 1).map((piece) => piece.join(' ')), end };
}

/** Least distance between the names of the two lines. */
const NAME_HEIGHT = 16;

/** The names of lines that end close together are moved apart. */
function apart({ after, before }: { readonly after: ChartLine; readonly before: ChartLine | undefined }) {
  if (!after.end || !before?.end) return { after, before };
  const gap = after.end.y - before.end.y;
  if (Math.abs(gap) >= NAME_HEIGHT) return { after, before };
  const move = ((NAME_HEIGHT - Math.abs(gap)) / 2) * (gap < 0 ? -1 : 1);
  return {
    after: { ...after, end: { ...after.end, y: after.end.y + move } },
    before: { ...before, end: { ...before.end, y: before.end.y - move } },
  };
}

/** Marks at 1, 2 or 5 times a power of ten, at most `most` of them. */
function marksOf({ low, high, place }: Scale, most: number): Mark[] {
  const raw = (high - low) / most;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = ([1, 2, 5, 10].find((times) => times * power >= raw) ?? 10) * power;
  const marks: Mark[] = [];
  for (let count = Math.ceil(low / step); count * step <= high; count++) {
    const value = count * step;
    marks.push({ at: place(value), label: String(Number(value.toFixed(6))) });
  }
  return marks;
}
