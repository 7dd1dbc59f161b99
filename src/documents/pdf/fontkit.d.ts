/**
 * The part of fontkit that font-file.ts uses; the package ships no types of its own.
 */
declare module 'fontkit' {
  type FontkitGlyph = { readonly id: number; readonly advanceWidth: number };
  type FontkitSubset = {
    includeGlyph(glyph: number): number;
    encode(): Uint8Array;
  };
  type FontkitFont = {
    readonly postscriptName: string | null;
    readonly unitsPerEm: number;
    readonly ascent: number;
    readonly descent: number;
    readonly capHeight: number;
    readonly italicAngle: number;
    readonly bbox: {
      readonly minX: number;
      readonly minY: number;
      readonly maxX: number;
      readonly maxY: number;
    };
    hasGlyphForCodePoint(codePoint: number): boolean;
    glyphForCodePoint(codePoint: number): FontkitGlyph;
    createSubset(): FontkitSubset;
  };
  export function create(bytes: Uint8Array): FontkitFont;
}
