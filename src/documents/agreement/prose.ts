/**
 * Headed paragraphs as the agreement's paper sets them: a heading never stands alone, and no single line is left
 * behind on a page.
 */
import type { Piece } from '../pdf/flow.ts';
import { paragraphPieces } from '../pdf/paragraph.ts';
import type { Sheet } from '../pdf/sheet.ts';

/** Lines longer than this, in points, are hard to read on. */
const LONGEST_LINE = 470;
const SIZE = 10;
const LEADING = 13.6;
const NUMBER = /^\d+\. /;
/** The blank between a figure and its unit, at which a line must not break. */
const BEFORE_UNIT =
  /(?<=\d) (?=%|[A-Z]{3}\b|[µm]g\b|(?:lb|kg|km|cwt|short tons?|tonnes?|miles?|points?|days?|decimals?)\b)/gu;
const NO_BREAK = '\u00a0';

/** A heading, tied to what follows. */
export function sectionHeading(text: string, sheet: Sheet): Piece[] {
  return paragraphPieces({
    text,
    left: sheet.left,
    width: sheet.width,
    style: sheet.heading,
    leading: 17,
    gapBefore: 16,
    keepWithNext: true,
  });
}

/** One paragraph; where it begins with a number, the rest stands beside the number. */
export function prose(text: string, sheet: Sheet, keepWithNext = false): Piece[] {
  return paragraphPieces({
    text: text.replace(BEFORE_UNIT, NO_BREAK),
    left: sheet.left,
    width: Math.min(sheet.width, LONGEST_LINE),
    style: { ...sheet.body, size: SIZE },
    leading: LEADING,
    gapBefore: 4,
    mayBreak: true,
    hanging: NUMBER.exec(text)?.[0] ?? '',
    keepWithNext,
  });
}
