/**
 * A few sentences in a box: what a reader must not overlook. A text with breaks of its own keeps them.
 */
import type { Piece } from './flow.ts';
import type { TextStyle } from './page-ink.ts';
import { baselineIn } from './paragraph.ts';
import type { Sheet } from './sheet.ts';
import { wrapText } from './wrap-text.ts';

export interface BoxedText {
  readonly text: string;
  readonly style: TextStyle;
  readonly gapBefore: number;
  readonly keepWithNext?: boolean;
}

const PADDING = 8;

/** One piece across the sheet, which is never cut. */
export function boxedPiece({ text, style, gapBefore, keepWithNext = false }: BoxedText, sheet: Sheet): Piece {
  const leading = style.size * 1.35;
  const lines = text.split('\n').flatMap((part) => wrapText(part, sheet.width - 2 * PADDING, style));
  const height = lines.length * leading + 2 * PADDING - 3;
  return {
    height,
    gapBefore,
    keepWithNext,
    draw: (ink, top) => {
      ink.outline(
        { x: sheet.left, top, width: sheet.width, height },
        { colour: sheet.rule.colour, width: 1.2 },
      );
      for (const [index, line] of lines.entries()) {
        const lineTop = top + PADDING - 1.5 + index * leading;
        ink.text(line, sheet.left + PADDING, lineTop + baselineIn(leading, style.size), style);
      }
    },
  };
}
