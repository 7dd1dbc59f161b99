/**
 * A table as pieces for the page flow: its heading repeats on every page, figures stand on their decimal mark,
 * a note below a row stays with it, and the last row stays with the totals.
 */
import type { Piece } from './flow.ts';
import type { Stroke, TextStyle } from './page-ink.ts';
import { type Cell, type Column, type ColumnSpace, layColumns } from './table-columns.ts';
import { headPiece, notePieces, rowPiece, type TableGrid } from './table-rows.ts';

export interface Row {
  readonly cells: readonly Cell[];
  /** How the row came about, in small type beneath it. */
  readonly note?: string;
}

export interface TableStyle {
  readonly head: TextStyle;
  readonly body: TextStyle;
  readonly note: TextStyle;
  readonly total: TextStyle;
  /** Under the heading and over the totals. */
  readonly rule: Stroke;
  /** Between rows; none if absent. */
  readonly hairline?: Stroke;
  /** White space above and below each row's text, in points. */
  readonly padding: number;
  /** The column, counted from 0, that notes stand under; the first if absent. */
  readonly noteUnder?: number;
}

export interface Table {
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  readonly totals: readonly Row[];
  readonly space: ColumnSpace;
  readonly style: TableStyle;
  readonly gapBefore?: number;
  readonly keepWithNext?: boolean;
  /** Stands over the first column where the heading repeats, so that a reader knows what goes on. */
  readonly continued?: string;
}

/** The columns as wide as all these rows together need them. */
export function gridOf({
  columns,
  rows,
  totals,
  space,
  style,
}: Pick<Table, 'columns' | 'rows' | 'totals' | 'space' | 'style'>): TableGrid {
  const all = [...rows, ...totals];
  const cells = columns.map((_, index) => all.map((row) => row.cells[index] ?? ''));
  // Totals are set heavier, hence wider: the columns are measured in the totals' face if there are any.
  const body = totals.length > 0 ? { face: style.total.face, size: style.body.size } : style.body;
  return { columns: layColumns(columns, cells, space, { head: style.head, body }), space };
}

/** A row with its note, all of it tied together. */
function rowWithNote(row: Row, grid: TableGrid, style: TableStyle, line: Stroke | undefined): Piece[] {
  const { padding } = style;
  const note =
    row.note === undefined || row.note === ''
      ? []
      : notePieces(row.note, grid, { text: style.note, padding, under: style.noteUnder });
  const noteFollows = note.length > 0;
  const piece = rowPiece(row.cells, grid, { text: style.body, padding }, { line, noteFollows });
  return [{ ...piece, keepWithNext: noteFollows }, ...note];
}

/** The pieces with the last of them tied, or not, to what follows. */
export function withLastTied(pieces: readonly Piece[], keepWithNext: boolean): Piece[] {
  return pieces.map((piece, index) => (index === pieces.length - 1 ? { ...piece, keepWithNext } : piece));
}

/** The same columns with other words over the first. */
export function continuedGrid(grid: TableGrid, continued: string | undefined): TableGrid {
  if (continued === undefined) return grid;
  const columns = grid.columns.map((column, index) =>
    index === 0 ? { ...column, head: continued } : column,
  );
  return { ...grid, columns };
}

/** Rows and totals on a grid, without a heading: each row's note stays with it, the last row with the totals. */
export function bodyPieces(
  { rows, totals }: Pick<Table, 'rows' | 'totals'>,
  grid: TableGrid,
  style: TableStyle,
): Piece[] {
  const body = rows.flatMap((row, index) => {
    const pieces = rowWithNote(row, grid, style, index === 0 ? undefined : style.hairline);
    return withLastTied(pieces, index === rows.length - 1 && totals.length > 0);
  });
  const foot = totals.map((row, index) => {
    const line = index === 0 ? style.rule : undefined;
    const piece = rowPiece(
      row.cells,
      grid,
      { text: style.total, padding: style.padding },
      { line, noteFollows: false },
    );
    return { ...piece, keepWithNext: index < totals.length - 1 };
  });
  return [...body, ...foot];
}

/** The pieces of one table; cells are matched to columns by their place. */
export function tablePieces(table: Table): Piece[] {
  const { style } = table;
  const grid = gridOf(table);
  const head = headPiece(grid, style.head, style.rule, table.gapBefore ?? 0);
  const repeatedHead = headPiece(continuedGrid(grid, table.continued), style.head, style.rule, 0);
  const below = bodyPieces(table, grid, style).map((piece) => ({ ...piece, repeatedHead }));
  return [head, ...withLastTied(below, table.keepWithNext ?? false)];
}
