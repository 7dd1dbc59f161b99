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
  /** Whether the last line, too, is tied to what follows; the lines themselves are tied to each other unless `mayBreak`. */
  readonly keepWithNext?: boolean;
  /** Lets a long paragraph go on over a page, with at least two of its lines on either side. */
  readonly mayBreak?: boolean;
  /** What the text begins with and its other lines stand to the right of: "12. ". */
  readonly hanging?: string;
}

/** Where a baseline stands in a line of this leading, from the line's top. */
export function baselineIn(leading: number, size: number): number {
  return (leading - size) / 2 + size * 0.8;
}

/** Fewest lines of a paragraph that stand alone at the foot or the head of a page. */
const LINES_TOGETHER = 2;

function isTied(
  index: number,
  count: number,
  { mayBreak = false, keepWithNext = false }: Paragraph,
): boolean {
  if (index === count - 1 || !mayBreak) return keepWithNext || index < count - 1;
  return index < LINES_TOGETHER - 1 || index >= count - LINES_TOGETHER;
}

/** Texts with breaks of their own keep them. */
function linesOf({ text, width, style, hanging = '' }: Paragraph): { lines: string[]; indent: number } {
  const indent = style.face.width(hanging, style.size);
  const lines = text
    .slice(hanging.length)
    .split(/\r\n|\r|\n/)
    .flatMap((part) => wrapText(part, width - indent, style));
  return { lines: lines.map((line, index) => (index === 0 ? `${hanging}${line}` : line)), indent };
}

/** The lines of a paragraph. */
export function paragraphPieces(paragraph: Paragraph): Piece[] {
  const { left, style, leading, gapBefore = 0 } = paragraph;
  const { lines, indent } = linesOf(paragraph);
  const baseline = baselineIn(leading, style.size);
  return lines.map((line, index) => ({
    height: leading,
    gapBefore: index === 0 ? gapBefore : 0,
    keepWithNext: isTied(index, lines.length, paragraph),
    draw: (ink, top) => ink.text(line, index === 0 ? left : left + indent, top + baseline, style),
  }));
}
