/**
 * The marks of a hatch over a box, in points from the box's top left corner. Pure.
 * Marks may reach past the box; whoever draws them clips them to it.
 */
import type { Hatch } from './strip-look.ts';

export interface HatchMarks {
  /** Each x1, y1, x2, y2. */
  readonly lines: readonly (readonly [number, number, number, number])[];
  /** Middles of dots. */
  readonly dots: readonly (readonly [number, number])[];
}

export type HatchedBox = { readonly width: number; readonly height: number; readonly spacing: number };

function levelLines({ width, height, spacing }: HatchedBox): [number, number, number, number][] {
  const count = Math.max(1, Math.round(height / spacing) - 1);
  return Array.from({ length: count }, (_, index) => {
    const y = ((index + 1) * height) / (count + 1);
    return [0, y, width, y];
  });
}

function diagonals(
  { width, height, spacing }: HatchedBox,
  rising: boolean,
): [number, number, number, number][] {
  // Lines at 45° are nearer to each other than their distance along the edge.
  const step = spacing * Math.SQRT2;
  const lines: [number, number, number, number][] = [];
  for (let x = step / 2 - height; x < width; x += step) {
    lines.push(rising ? [x, height, x + height, 0] : [x, 0, x + height, height]);
  }
  return lines;
}

function dots({ width, height, spacing }: HatchedBox): [number, number][] {
  const rows = Math.max(1, Math.round(height / spacing));
  const points: [number, number][] = [];
  for (let row = 0; row < rows; row += 1) {
    const y = ((row + 0.5) * height) / rows;
    for (let x = row % 2 === 0 ? spacing / 2 : spacing; x < width; x += spacing) points.push([x, y]);
  }
  return points;
}

/** The marks that fill a box; `spacing` is the distance between neighbouring marks. */
export function hatchMarks(hatch: Hatch, box: HatchedBox): HatchMarks {
  switch (hatch) {
    case 'level-lines':
      return { lines: levelLines(box), dots: [] };
    case 'dots':
      return { lines: [], dots: dots(box) };
    case 'diagonals':
      return { lines: diagonals(box, true), dots: [] };
    case 'crossed-diagonals':
      return { lines: [...diagonals(box, true), ...diagonals(box, false)], dots: [] };
  }
}
