import { describe, expect, test } from 'vitest';
import { type Piece, paginate } from '../../src/documents/pdf/flow.ts';

function piece(height: number, more: Partial<Piece> = {}): Piece {
  return { height, draw: () => {}, ...more };
}

/** Heights of the pieces on each page. */
function heights(groups: readonly (readonly Piece[])[], room: number): number[][] {
  return paginate(groups, () => room).map((page) => page.map((placed) => placed.piece.height));
}

describe('paginate', () => {
  test('fills a page and goes on with the next', () => {
    expect(heights([[piece(40), piece(41), piece(42)]], 90)).toEqual([[40, 41], [42]]);
  });

  test('keeps a piece with the one it is tied to', () => {
    expect(heights([[piece(60), piece(20, { keepWithNext: true }), piece(25)]], 100)).toEqual([
      [60],
      [20, 25],
    ]);
  });

  test('repeats a heading on each page that goes on with the table', () => {
    const head = piece(10);
    const rows = Array.from({ length: 5 }, () => piece(30, { repeatedHead: head }));
    expect(heights([[{ ...head, keepWithNext: true }, ...rows]], 100)).toEqual([
      [10, 30, 30, 30],
      [10, 30, 30],
    ]);
  });

  test('moves a group whole rather than cut it, unless that leaves the page half empty', () => {
    expect(heights([[piece(70)], [piece(20), piece(21)]], 100)).toEqual([[70], [20, 21]]);
    expect(heights([[piece(30)], [piece(50), piece(49)]], 100)).toEqual([[30, 50], [49]]);
  });

  test('drops white space at the top of a page and breaks what is taller than one', () => {
    const tall = Array.from({ length: 4 }, () => piece(40, { keepWithNext: true, gapBefore: 5 }));
    const pages = paginate([tall], () => 100);
    expect(pages.map((page) => page.map(({ top }) => top))).toEqual([
      [0, 45],
      [0, 45],
    ]);
  });
});
