/**
 * One table in sections, each under a heading of its own that spans the columns: a document's lines, load by load.
 * The columns are the same in all sections, and their heading stands once and again at the head of every page.
 */
import type { Piece } from './flow.ts';
import { paragraphPieces } from './paragraph.ts';
import { bodyPieces, continuedGrid, gridOf, type Row, type Table, withLastTied } from './table.ts';
import { headPiece } from './table-rows.ts';

export interface TableSection {
  /** None where the rows need no name. */
  readonly heading?: string;
  readonly rows: readonly Row[];
  readonly totals: readonly Row[];
  /** Stands over the first column on a page that goes on within the section. */
  readonly continued?: string;
}

export type SectionedTable = Pick<Table, 'columns' | 'space' | 'style' | 'gapBefore'> & {
  readonly sections: readonly TableSection[];
};

/** White space above a section but the first. */
const BETWEEN = 7;

/** A group of pieces for each section, the table's heading in the first. */
export function sectionedTablePieces({
  columns,
  space,
  style,
  gapBefore,
  sections,
}: SectionedTable): Piece[][] {
  const rows = sections.flatMap((section) => section.rows);
  const totals = sections.flatMap((section) => section.totals);
  const grid = gridOf({ columns, rows, totals, space, style });
  const plainHead = headPiece(grid, style.head, style.rule, 0);
  return sections.map((section, index) => {
    const { heading, continued } = section;
    const naming =
      heading === undefined
        ? []
        : paragraphPieces({
            text: heading,
            left: space.left,
            width: space.width,
            style: style.total,
            leading: style.total.size * 1.35,
            gapBefore: index === 0 ? 4 : BETWEEN,
            keepWithNext: true,
          }).map((piece) => ({ ...piece, repeatedHead: plainHead }));
    const [first, ...others] = bodyPieces(section, grid, style);
    const againHead =
      continued === undefined
        ? plainHead
        : headPiece(continuedGrid(grid, continued), style.head, style.rule, 0);
    const below = [
      // The first row opens a page only where there is no heading above it.
      ...(first === undefined ? [] : [{ ...first, repeatedHead: plainHead }]),
      ...others.map((piece) => ({ ...piece, repeatedHead: againHead })),
    ];
    const head = index === 0 ? [headPiece(grid, style.head, style.rule, gapBefore ?? 0)] : [];
    return [...head, ...withLastTied([...naming, ...below], false)];
  });
}
