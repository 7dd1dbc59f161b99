/**
 * An agreement's paper read through from its first page to its last, as one text without the head and foot of each page,
 * so that a paragraph that goes on overleaf is found whole.
 */
import { pageTexts } from './pdf-text.ts';

const FOOT = [
  /^SHA-256 [0-9a-f]{64} +page \d+ of \d+$/,
  /^Agreement .+, (signed by .+|not signed|unsigned copy)$/,
];

/** Without any blanks: where lines break says nothing. */
export function paperText(bytes: Uint8Array): string {
  const lines = pageTexts(bytes).flatMap((page, index) => {
    const all = page
      .split('\n')
      .map((line) => line.trim())
      .filter((line) => line !== '');
    const [head, ...rest] = all;
    return index === 0 || head === undefined ? all : rest;
  });
  return squeezed(lines.filter((line) => !FOOT.some((shape) => shape.test(line))).join(' '));
}

export function squeezed(text: string): string {
  return text.normalize('NFC').replace(/\s+/g, '');
}
