/**
 * The geometry of lots on a chart: price of dry matter against starch, a lettered spot for each. A picture alone is worked
 * out from it, so binary fractions do no harm.
 */
import type { Mark } from '../../charts/chart-axes.tsx';

export const FRAME = { width: 460, height: 280, left: 58, right: 24, top: 18, bottom: 42 } as const;

export interface SpotFigures {
  readonly letter: string;
  /** Percent of dry matter. */
  readonly starch: number;
  readonly price: number;
}

export interface Spot {
  readonly letter: string;
  readonly x: number;
  readonly y: number;
}

export interface SpotsPicture {
  readonly spots: readonly Spot[];
  readonly across: readonly Mark[];
  readonly up: readonly Mark[];
}

/** Radius of a spot, and the least room between two of them before one is moved. */
export const RADIUS = 11;

export function spotsPicture(figures: readonly SpotFigures[]): SpotsPicture {
  const across = scaleOf(
    figures.map(({ starch }) => starch),
    { from: FRAME.left, to: FRAME.width - FRAME.right, least: 2 },
  );
  const up = scaleOf(
    figures.map(({ price }) => price),
    { from: FRAME.height - FRAME.bottom, to: FRAME.top, least: 1 },
  );
  const spots: Spot[] = [];
  for (const { letter, starch, price } of figures) {
    let [x, y] = [across.place(starch), up.place(price)];
    // Lots alike stand beside one another, so that each letter can be read.
    while (spots.some((other) => Math.hypot(other.x - x, other.y - y) < 2 * RADIUS)) {
      x += x + 2 * RADIUS > FRAME.width - FRAME.right ? -2 * RADIUS : 2 * RADIUS;
      y -= 1;
    }
    spots.push({ letter, x, y });
  }
  return { spots, across: marksOf(across), up: marksOf(up) };
}

interface Scale {
  readonly low: number;
  readonly high: number;
  readonly place: (value: number) => number;
}

function scaleOf(
  values: readonly number[],
  { from, to, least }: { readonly from: number; readonly to: number; readonly least: number },
): Scale {
  const [lowest, highest] = [Math.min(...values), Math.max(...values)];
  const room = Math.max(highest - lowest, least) / 5;
  const [low, high] = [lowest - room, highest + room];
  const place = (value: number) =>
    Math.round((from + ((value - low) / (high - low)) * (to - from)) * 10) / 10;
  return { low, high, place };
}

/** Marks at 1, 2 or 5 times a power of ten, about five of them. */
function marksOf({ low, high, place }: Scale): Mark[] {
  const raw = (high - low) / 5;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = ([1, 2, 5, 10].find((times) => times * power >= raw) ?? 10) * power;
  const marks: Mark[] = [];
  for (let count = Math.ceil(low / step); count * step <= high; count++) {
    marks.push({ at: place(count * step), label: String(Number((count * step).toFixed(6))) });
  }
  return marks;
}
