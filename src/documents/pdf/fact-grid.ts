/**
 * Short facts side by side, each a small label above its value: a ticket's weights, a sample's figures.
 * Values that are too long for their column wrap; the row grows with them.
 */
import type { Piece } from './flow.ts';
import type { PageInk, TextStyle } from './page-ink.ts';
import { baselineIn } from './paragraph.ts';
import { wrapText } from './wrap-text.ts';

export interface Fact {
  readonly label: string;
  readonly value: string;
  /** How many columns it takes; 1 if absent. */
  readonly span?: number;
}

export interface FactGrid {
  readonly facts: readonly Fact[];
  readonly columns: number;
  readonly left: number;
  readonly width: number;
  readonly label: TextStyle;
  readonly value: TextStyle;
  readonly gapBefore?: number;
  readonly keepWithNext?: boolean;
}

const COLUMN_GAP = 10;
const ROW_GAP = 4;

type PlacedFact = { readonly fact: Fact; readonly column: number };

/** Fills rows from the left; a fact that no longer fits beside the others begins the next row. */
function rowsOf(facts: readonly Fact[], columns: number): PlacedFact[][] {
  const rows: PlacedFact[][] = [];
  let column = columns;
  for (const fact of facts) {
    const span = fact.span ?? 1;
    if (column + span > columns) {
      rows.push([]);
      column = 0;
    }
    rows.at(-1)?.push({ fact, column });
    column += span;
  }
  return rows;
}

/** One piece for each row of facts. */
export function factGridPieces(grid: FactGrid): Piece[] {
  const { facts, columns, left, label, value } = grid;
  const columnWidth = (grid.width - COLUMN_GAP * (columns - 1)) / columns;
  const labelLeading = label.size * 1.3;
  const valueLeading = value.size * 1.3;
  const rows = rowsOf(facts, columns);
  return rows.map((placed, row) => {
    const cells = placed.map(({ fact, column }) => {
      const width = (fact.span ?? 1) * (columnWidth + COLUMN_GAP) - COLUMN_GAP;
      return {
        x: left + column * (columnWidth + COLUMN_GAP),
        labels: wrapText(fact.label, width, label),
        values: wrapText(fact.value, width, value),
      };
    });
    const labelLines = Math.max(...cells.map((cell) => cell.labels.length));
    const valueLines = Math.max(...cells.map((cell) => cell.values.length));
    const piece: Piece = {
      height: labelLines * labelLeading + valueLines * valueLeading,
      gapBefore: row === 0 ? (grid.gapBefore ?? 0) : ROW_GAP,
      keepWithNext: row < rows.length - 1 || (grid.keepWithNext ?? false),
      draw: (ink, top) => {
        const valueTop = top + labelLines * labelLeading;
        for (const cell of cells) {
          // Labels stand on their values, so that one long label does not tear its neighbours from theirs.
          const labelTop = valueTop - cell.labels.length * labelLeading;
          const { x } = cell;
          drawLines(ink, cell.labels, { x, top: labelTop, leading: labelLeading, style: label });
          drawLines(ink, cell.values, { x, top: valueTop, leading: valueLeading, style: value });
        }
      },
    };
    return piece;
  });
}

interface LinesPlace {
  readonly x: number;
  readonly top: number;
  readonly leading: number;
  readonly style: TextStyle;
}

function drawLines(ink: PageInk, lines: readonly string[], { x, top, leading, style }: LinesPlace): void {
  for (const [line, text] of lines.entries()) {
    ink.text(text, x, top + line * leading + baselineIn(leading, style.size), style);
  }
}
