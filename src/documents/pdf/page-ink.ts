/**
 * What is drawn on one page, collected as PDF operators and written as one stream.
 * Places are in points from the page's top left corner, downwards; a text's place is its baseline.
 * The state of font, colour and line is remembered, so that a table cell costs one short operator line.
 */
import type { Typeface } from './typeface.ts';

/** Red, green and blue, each 0 to 1. */
export type Colour = readonly [number, number, number];

export interface Box {
  readonly x: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export type Stroke = { readonly colour: Colour; readonly width: number };

export type TextStyle = { readonly face: Typeface; readonly size: number; readonly colour: Colour };

/** A colour from six hexadecimal digits, such as "1c1a17". */
export function colourOf(hex: string): Colour {
  const value = Number.parseInt(hex, 16);
  return [(value >> 16) / 255, ((value >> 8) & 0xff) / 255, (value & 0xff) / 255];
}

/** At most two decimals (a hundredth of a point is far below what a printer shows), never an exponent. */
function number(value: number): string {
  const rounded = Math.round(value * 100) / 100;
  return Object.is(rounded, -0) ? '0' : String(rounded);
}

function colourText(colour: Colour): string {
  return colour.map((part) => String(Math.round(part * 1000) / 1000)).join(' ');
}

export class PageInk {
  readonly #pageHeight: number;
  readonly #operators: string[] = [];
  #inText = false;
  #font = '';
  #fill = '';
  #stroke = '';

  constructor(pageHeight: number) {
    this.#pageHeight = pageHeight;
  }

  /** Draws one line of text from x rightwards on a baseline. */
  text(text: string, x: number, baseline: number, style: TextStyle): void {
    const { codes } = style.face.shape(text);
    if (codes === '') return;
    this.#setFill(style.colour);
    if (!this.#inText) {
      this.#operators.push('BT');
      this.#inText = true;
    }
    const font = `/${style.face.resource} ${number(style.size)} Tf`;
    const place = `1 0 0 1 ${number(x)} ${number(this.#pageHeight - baseline)} Tm <${codes}> Tj`;
    this.#operators.push(font === this.#font ? place : `${font} ${place}`);
    this.#font = font;
  }

  /** Draws one line of text that ends at x. */
  textEndingAt(text: string, x: number, baseline: number, style: TextStyle): void {
    this.text(text, x - style.face.width(text, style.size), baseline, style);
  }

  /** Fills a box. */
  fill(box: Box, colour: Colour): void {
    this.#leaveText();
    this.#setFill(colour);
    this.#operators.push(`${this.#rectangle(box)} f`);
  }

  /** Strokes straight lines, each from its first point to its second. */
  lines(segments: readonly (readonly [number, number, number, number])[], stroke: Stroke): void {
    if (segments.length === 0) return;
    this.#leaveText();
    this.#setStroke(stroke);
    const path = segments.map(
      ([x1, y1, x2, y2]) =>
        `${number(x1)} ${number(this.#pageHeight - y1)} m ${number(x2)} ${number(this.#pageHeight - y2)} l`,
    );
    this.#operators.push(`${path.join(' ')} S`);
  }

  /** Strokes the outline of a box. */
  outline(box: Box, stroke: Stroke): void {
    this.#leaveText();
    this.#setStroke(stroke);
    this.#operators.push(`${this.#rectangle(box)} S`);
  }

  /** Round dots: a line of no length with round ends, the shortest way to a disc. */
  dots(points: readonly (readonly [number, number])[], dot: Stroke): void {
    if (points.length === 0) return;
    this.#leaveText();
    this.#setStroke(dot);
    const path = points.map(([x, y]) => {
      const place = `${number(x)} ${number(this.#pageHeight - y)}`;
      return `${place} m ${place} l`;
    });
    this.#operators.push(`1 J ${path.join(' ')} S 0 J`);
  }

  /** Whatever `draw` puts down shows inside the box only. */
  clipped(box: Box, draw: () => void): void {
    this.#leaveText();
    const before = { font: this.#font, fill: this.#fill, stroke: this.#stroke };
    this.#operators.push(`q ${this.#rectangle(box)} W n`);
    draw();
    this.#leaveText();
    this.#operators.push('Q');
    this.#font = before.font;
    this.#fill = before.fill;
    this.#stroke = before.stroke;
  }

  /** The page's operators so far, complete. */
  finish(): string {
    this.#leaveText();
    return this.#operators.join('\n');
  }

  #rectangle({ x, top, width, height }: Box): string {
    return `${number(x)} ${number(this.#pageHeight - top - height)} ${number(width)} ${number(height)} re`;
  }

  #leaveText(): void {
    if (this.#inText) this.#operators.push('ET');
    this.#inText = false;
  }

  #setFill(colour: Colour): void {
    const fill = `${colourText(colour)} rg`;
    if (fill !== this.#fill) this.#operators.push(fill);
    this.#fill = fill;
  }

  #setStroke({ colour, width }: Stroke): void {
    const stroke = `${colourText(colour)} RG ${number(width)} w`;
    if (stroke !== this.#stroke) this.#operators.push(stroke);
    this.#stroke = stroke;
  }
}
