/**
 * How wide a table's columns are and where in them a figure's decimal mark stands.
 * "fit" columns are as wide as their widest cell, "fill" columns share what is left.
 */
import type { PageInk } from './page-ink.ts';
import type { Measure } from './wrap-text.ts';

export interface Column {
  readonly head: string;
  readonly align: 'left' | 'right' | 'decimal';
  /** Points, or "fit", or "fill". */
  readonly width: number | 'fit' | 'fill';
}

export interface Picture {
  readonly height: number;
  readonly width: number;
  readonly draw: (ink: PageInk, x: number, top: number) => void;
}

export type Cell = string | Picture;

export type DecimalMark = '.' | ',';

export type LaidColumn = Column & {
  readonly x: number;
  readonly points: number;
  /** Room kept right of the whole part, from the decimal mark on, in points; 0 for other columns. */
  readonly fraction: number;
};

export interface ColumnSpace {
  readonly left: number;
  readonly width: number;
  /** White space between neighbouring columns, in points. */
  readonly gap: number;
  readonly decimalMark: DecimalMark;
}

/** A "fit" column may take at most this part of the table; longer texts wrap. */
const FIT_AT_MOST = 0.3;

/** The whole part of a printed figure and the rest from its decimal mark on. */
export function splitAtDecimal(figure: string, mark: DecimalMark): { whole: string; fraction: string } {
  const at = figure.lastIndexOf(mark);
  return at < 0
    ? { whole: figure, fraction: '' }
    : { whole: figure.slice(0, at), fraction: figure.slice(at) };
}

/** A heading up to this width, in points, stays on one line. */
const ONE_LINE_UP_TO = 64;

/** The least width at which a heading stands well: on one line if short, else on two. */
function headWidthOf(text: string, { face, size }: Measure): number {
  const whole = face.width(text, size);
  if (whole <= ONE_LINE_UP_TO) return whole;
  const words = text.split(' ');
  const breaks = words.map((_, index) => {
    const first = face.width(words.slice(0, index + 1).join(' '), size);
    return Math.max(first, face.width(words.slice(index + 1).join(' '), size));
  });
  return Math.min(...breaks);
}

type Widths = { readonly points: number; readonly fraction: number };

function cellWidths(cells: readonly Cell[], column: Column, mark: DecimalMark, body: Measure): Widths {
  let widest = 0;
  let wholeWidest = 0;
  let fractionWidest = 0;
  for (const cell of cells) {
    if (typeof cell !== 'string') {
      widest = Math.max(widest, cell.width);
    } else if (column.align === 'decimal') {
      const { whole, fraction } = splitAtDecimal(cell, mark);
      wholeWidest = Math.max(wholeWidest, body.face.width(whole, body.size));
      fractionWidest = Math.max(fractionWidest, body.face.width(fraction, body.size));
    } else {
      widest = Math.max(widest, body.face.width(cell, body.size));
    }
  }
  return { points: Math.max(widest, wholeWidest + fractionWidest), fraction: fractionWidest };
}

/** Places the columns side by side in the space; `cells` gives each column's cells, top down. */
export function layColumns(
  columns: readonly Column[],
  cells: readonly (readonly Cell[])[],
  space: ColumnSpace,
  styles: { readonly head: Measure; readonly body: Measure },
): LaidColumn[] {
  const { head, body } = styles;
  const measured = columns.map((column, index) => {
    const { points, fraction } = cellWidths(cells[index] ?? [], column, space.decimalMark, body);
    if (column.width === 'fill') return { points: 0, fraction };
    if (column.width !== 'fit') return { points: column.width, fraction };
    const headWidth = headWidthOf(column.head, head);
    return { points: Math.min(Math.max(points, headWidth), space.width * FIT_AT_MOST), fraction };
  });
  const fills = columns.filter((column) => column.width === 'fill').length;
  const taken = measured.reduce((sum, { points }) => sum + points, 0) + space.gap * (columns.length - 1);
  const share = fills === 0 ? 0 : Math.max(0, space.width - taken) / fills;
  let x = space.left;
  return columns.map((column, index) => {
    const { points, fraction } = measured[index] ?? { points: 0, fraction: 0 };
    const laid = { ...column, x, points: column.width === 'fill' ? share : points, fraction };
    x += laid.points + space.gap;
    return laid;
  });
}
