/**
 * Running text as pieces: one for each line, so that a long text can go on over a page.
 */
import type { Piece } from './flow.ts';
import type { TextStyle } from './page-ink.ts';
import { wrapText } from './wrap-text.ts';

export interface Paragraph {
  readonly text: string;
  readonly left: number;
  readonly width: number;
  readonly style: TextStyle;
  /** Distance from one baseline to the next, in points. */
  readonly leading: number;
  readonly gapBefore?: number;
  /** Whether the last line, too, is tied to what follows; the lines themselves are always tied to each other. */
  readonly keepWithNext?: boolean;
}

/** Where a baseline stands in a line of this leading, from the line's top. */
export function baselineIn(leading: number, size: number): number {
  return (leading - size) / 2 + size * 0.8;
}

/** The lines of a paragraph. */
export function paragraphPieces(paragraph: Paragraph): Piece[] {
  const { text, left, width, style, leading, gapBefore = 0, keepWithNext = false } = paragraph;
  const lines = wrapText(text, width, style);
  const baseline = baselineIn(leading, style.size);
  return lines.map((line, index) => ({
    height: leading,
    gapBefore: index === 0 ? gapBefore : 0,
    keepWithNext: keepWithNext || index < lines.length - 1,
    draw: (ink, top) => ink.text(line, left, top + baseline, style),
  }));
}
