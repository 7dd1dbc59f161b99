/**
 * One TrueType font file: which characters it can draw, how wide they are, and a smaller copy with only those drawn.
 * The only importer of fontkit. Lengths are in thousandths of the type size.
 */
import { create } from 'fontkit';

export type FontGlyph = { readonly id: number; readonly advance: number };

export interface FontFile {
  readonly name: string;
  readonly ascent: number;
  readonly descent: number;
  readonly capHeight: number;
  readonly italicAngle: number;
  /** Left, bottom, right, top of all glyphs together. */
  readonly box: readonly [number, number, number, number];
  /** The glyph of one code point, or undefined where the font has none. */
  glyph(codePoint: number): FontGlyph | undefined;
  /** A font with these glyphs only, and each one's place in it, in the order given. */
  subset(glyphIds: readonly number[]): { readonly bytes: Uint8Array; readonly places: readonly number[] };
}

/** Reads a TrueType font from its bytes. Throws on bytes that are not a font. */
export function openFontFile(bytes: Uint8Array): FontFile {
  const font = create(bytes);
  const toThousandths = (units: number): number => Math.round((units * 1000) / font.unitsPerEm);
  const { minX, minY, maxX, maxY } = font.bbox;
  return {
    name: font.postscriptName ?? 'Font',
    ascent: toThousandths(font.ascent),
    descent: toThousandths(font.descent),
    capHeight: toThousandths(font.capHeight),
    italicAngle: font.italicAngle,
    box: [toThousandths(minX), toThousandths(minY), toThousandths(maxX), toThousandths(maxY)],
    glyph(codePoint) {
      if (!font.hasGlyphForCodePoint(codePoint)) return undefined;
      const glyph = font.glyphForCodePoint(codePoint);
      return { id: glyph.id, advance: (glyph.advanceWidth * 1000) / font.unitsPerEm };
    },
    subset(glyphIds) {
      const subset = font.createSubset();
      const places = glyphIds.map((id) => subset.includeGlyph(id));
      return { bytes: subset.encode(), places };
    },
  };
}
