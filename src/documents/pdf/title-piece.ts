/**
 * The first lines of a paper about money: what it is on the left, on the right the one figure that matters with the
 * words that say who owes it, and a coloured rule beneath.
 */
import type { Piece } from './flow.ts';
import type { Sheet } from './sheet.ts';
import { wrapText } from './wrap-text.ts';

export interface PaperTitle {
  readonly title: string;
  /** A line below the title. */
  readonly below: string;
  /** Who owes it, above the figure. */
  readonly label: string;
  /** "USD 1,986.85". */
  readonly figure: string;
  /** When, below the figure; none if empty. */
  readonly under: string;
}

const GAP = 24;
const TITLE_LEADING = 26;
const LINE_LEADING = 12.5;

/** The piece; a long title wraps beside the figure. The label stands above both, and is short. */
export function titlePiece({ title, below, label, figure, under }: PaperTitle, sheet: Sheet): Piece {
  const right = Math.max(
    sheet.figure.face.width(figure, sheet.figure.size),
    sheet.strong.face.width(under, sheet.strong.size),
  );
  const width = sheet.width - right - GAP;
  const titles = wrapText(title, width, sheet.title);
  const lines = below === '' ? [] : wrapText(below, width, sheet.body);
  const belowTitle = 10 + titles.length * TITLE_LEADING;
  const height = Math.max(belowTitle + lines.length * LINE_LEADING, 36 + LINE_LEADING) + 7;
  return {
    height,
    keepWithNext: true,
    draw: (ink, top) => {
      for (const [index, line] of titles.entries())
        ink.text(line, sheet.left, top + 30 + index * TITLE_LEADING, sheet.title);
      for (const [index, line] of lines.entries())
        ink.text(line, sheet.left, top + belowTitle + 9.5 + index * LINE_LEADING, sheet.body);
      ink.textEndingAt(label, sheet.right, top + 8, sheet.label);
      ink.textEndingAt(figure, sheet.right, top + 30, sheet.figure);
      ink.textEndingAt(under, sheet.right, top + 45.5, sheet.strong);
      ink.lines([[sheet.left, top + height, sheet.right, top + height]], sheet.colourRule);
    },
  };
}
