/**
 * The parts of a table, each as a piece for the page flow: its heading, a row, and the note beneath a row.
 */
import type { Piece } from './flow.ts';
import type { PageInk, Stroke, TextStyle } from './page-ink.ts';
import { baselineIn } from './paragraph.ts';
import {
  type Cell,
  type ColumnSpace,
  type LaidColumn,
  type Picture,
  splitAtDecimal,
} from './table-columns.ts';
import { wrapText } from './wrap-text.ts';

/** White space above and below a row's text, in points. */
export type RowStyle = { readonly text: TextStyle; readonly padding: number };

export type TableGrid = { readonly columns: readonly LaidColumn[]; readonly space: ColumnSpace };

const LINE_HEIGHT = 1.25;
/** A cell as wide as its column must not wrap because of the last binary digit. */
const WIDTH_SLACK = 0.01;
const UNDER_HEAD = 4;

type CellLines = { readonly column: LaidColumn; readonly lines: readonly string[] };

type CellPlace = { readonly top: number; readonly style: TextStyle; readonly atDecimal: boolean };

function cellLines(text: string, column: LaidColumn, style: TextStyle): CellLines {
  return { column, lines: text === '' ? [] : wrapText(text, column.points + WIDTH_SLACK, style) };
}

function deepest(cells: readonly CellLines[], style: TextStyle): number {
  return Math.max(1, ...cells.map((cell) => cell.lines.length)) * style.size * LINE_HEIGHT;
}

function drawCell(ink: PageInk, { column, lines }: CellLines, place: CellPlace, space: ColumnSpace): void {
  const { style } = place;
  const leading = style.size * LINE_HEIGHT;
  const end = column.x + column.points;
  for (const [index, line] of lines.entries()) {
    const baseline = place.top + index * leading + baselineIn(leading, style.size);
    if (column.align === 'left') {
      ink.text(line, column.x, baseline, style);
    } else if (column.align === 'right' || !place.atDecimal || lines.length > 1) {
      ink.textEndingAt(line, end, baseline, style);
    } else {
      const { whole, fraction } = splitAtDecimal(line, space.decimalMark);
      const point = end - column.fraction;
      // Drawn as one text: a figure in two parts may be copied with a gap at its mark.
      ink.text(`${whole}${fraction}`, point - style.face.width(whole, style.size), baseline, style);
    }
  }
}

/** The heading: labels stand on the rule beneath them. */
export function headPiece(
  { columns, space }: TableGrid,
  style: TextStyle,
  rule: Stroke,
  gapBefore: number,
): Piece {
  const cells = columns.map((column) => cellLines(column.head, column, style));
  const depth = deepest(cells, style);
  const height = depth + UNDER_HEAD;
  return {
    height,
    gapBefore,
    keepWithNext: true,
    draw: (ink, top) => {
      for (const cell of cells) {
        const cellTop = top + depth - cell.lines.length * style.size * LINE_HEIGHT;
        drawCell(ink, cell, { top: cellTop, style, atDecimal: false }, space);
      }
      ink.lines([[space.left, top + height, space.left + space.width, top + height]], rule);
    },
  };
}

/** One row; `line`, if any, is drawn above it. A row with a note beneath has no white space below. */
export function rowPiece(
  cells: readonly Cell[],
  { columns, space }: TableGrid,
  { text: style, padding }: RowStyle,
  ends: { readonly line: Stroke | undefined; readonly noteFollows: boolean },
): Piece {
  const pictures: { readonly picture: Picture; readonly x: number }[] = [];
  const texts: CellLines[] = [];
  for (const [index, column] of columns.entries()) {
    const cell = cells[index] ?? '';
    if (typeof cell === 'string') texts.push(cellLines(cell, column, style));
    else pictures.push({ picture: cell, x: column.x });
  }
  const depth = Math.max(deepest(texts, style), ...pictures.map(({ picture }) => picture.height));
  return {
    height: depth + padding * (ends.noteFollows ? 1 : 2),
    draw: (ink, top) => {
      if (ends.line !== undefined) ink.lines([[space.left, top, space.left + space.width, top]], ends.line);
      for (const cell of texts) drawCell(ink, cell, { top: top + padding, style, atDecimal: true }, space);
      for (const { picture, x } of pictures) {
        picture.draw(ink, x, top + padding + (depth - picture.height) / 2);
      }
    },
  };
}

/** The lines of a note, from the left edge of the table or of one of its columns, as far as its last column. */
export function notePieces(
  note: string,
  { columns, space }: TableGrid,
  { text: style, padding, under = 0 }: RowStyle & { readonly under?: number | undefined },
): Piece[] {
  const left = columns[under]?.x ?? space.left;
  const width = space.left + space.width - left - (columns.at(-1)?.points ?? 0) - space.gap;
  const leading = style.size * LINE_HEIGHT;
  const lines = wrapText(note, width, style);
  return lines.map((text, index) => ({
    height: leading + (index === lines.length - 1 ? padding : 0),
    keepWithNext: index < lines.length - 1,
    draw: (ink, top) => ink.text(text, left, top + baselineIn(leading, style.size), style),
  }));
}
