/**
 * Breaks a text into lines that fit a width: between words, and inside a word only where it alone is too wide.
 * No character is lost or added but the spaces at which lines break.
 */
import type { Typeface } from './typeface.ts';

export type Measure = { readonly face: Typeface; readonly size: number };

/** Splits one word that is wider than the line into parts that fit, at least one character each. */
function splitWord(word: string, width: number, { face, size }: Measure): string[] {
  const parts: string[] = [];
  let part = '';
  for (const character of word.normalize('NFC')) {
    if (part !== '' && face.width(part, size) + face.width(character, size) > width) {
      parts.push(part);
      part = '';
    }
    part += character;
  }
  parts.push(part);
  return parts;
}

/** The lines of a text at a width in points; at least one, even if empty. */
export function wrapText(text: string, width: number, measure: Measure): string[] {
  const { face, size } = measure;
  if (face.width(text, size) <= width) return [text];
  const space = face.width(' ', size);
  const lines: string[] = [];
  let line = '';
  let lineWidth = 0;
  for (const word of text.split(/[ \t\r\n]+/)) {
    const parts = face.width(word, size) <= width ? [word] : splitWord(word, width, measure);
    for (const [index, part] of parts.entries()) {
      const partWidth = face.width(part, size);
      if (line !== '' && index === 0 && lineWidth + space + partWidth <= width) {
        line += ` ${part}`;
        lineWidth += space + partWidth;
        continue;
      }
      if (line !== '') lines.push(line);
      line = part;
      lineWidth = partWidth;
    }
  }
  if (line !== '' || lines.length === 0) lines.push(line);
  return lines;
}
