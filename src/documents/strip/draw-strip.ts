/**
 * The load strip on paper: its parts filled and hatched, and a legend with names and percents beneath.
 */
import type { Box, PageInk, TextStyle } from '../pdf/page-ink.ts';
import { colourOf } from '../pdf/page-ink.ts';
import { hatchMarks } from './hatch-marks.ts';
import type { LoadStrip, StripPart } from './load-strip.ts';
import { STRIP_LOOK, STRIP_OUTLINE } from './strip-look.ts';

const OUTLINE = { colour: colourOf(STRIP_OUTLINE), width: 0.5 };

function drawPart(ink: PageInk, part: StripPart, box: Box): void {
  if (box.width <= 0) return;
  const look = STRIP_LOOK[part];
  const spacing = box.height < 10 ? 2.2 : 3.2;
  const colour = colourOf(look.mark);
  ink.fill(box, colourOf(look.fill));
  ink.clipped(box, () => {
    const marks = hatchMarks(look.hatch, { width: box.width, height: box.height, spacing });
    const lines = marks.lines.map(
      ([x1, y1, x2, y2]) => [box.x + x1, box.top + y1, box.x + x2, box.top + y2] as const,
    );
    ink.lines(lines, { colour, width: 0.4 });
    const dots = marks.dots.map(([x, y]) => [box.x + x, box.top + y] as const);
    ink.dots(dots, { colour, width: spacing / 3 });
  });
}

/** Draws a strip in a box that is as wide as the longest strip; the strip takes its own part of that width. */
export function drawStrip(ink: PageInk, strip: LoadStrip, box: Box): void {
  const width = box.width * strip.length;
  for (const { part, from, to } of strip.segments) {
    drawPart(ink, part, { ...box, x: box.x + from * width, width: (to - from) * width });
  }
  const ends = strip.segments.slice(0, -1).map(({ to }) => {
    const x = box.x + to * width;
    return [x, box.top, x, box.top + box.height] as const;
  });
  ink.lines(ends, OUTLINE);
  ink.outline({ ...box, width }, OUTLINE);
}

const SWATCH = { width: 14, height: 7 };

/** Draws the legend on one line from x; the percents stand after the names, in the strip's order. */
export function drawLegend(
  ink: PageInk,
  strip: LoadStrip,
  at: { x: number; baseline: number },
  style: TextStyle,
): void {
  let x = at.x;
  for (const { part, label, percent } of strip.segments) {
    const box = { ...SWATCH, x, top: at.baseline - SWATCH.height + 0.6 };
    drawPart(ink, part, box);
    ink.outline(box, OUTLINE);
    const text = percent === null ? label : `${label} ${percent} %`;
    ink.text(text, x + SWATCH.width + 4, at.baseline, style);
    x += SWATCH.width + 4 + style.face.width(text, style.size) + 16;
  }
  // The tests beside it are percent of the dry matter: nobody should take one for the other.
  ink.text('of the wet load', x, at.baseline, style);
}
