/**
 * Puts a typeface into a PDF: only the glyphs that were drawn, their widths, and what character each stands for.
 * The six-letter tag that the format wants before a partial font's name is made from its characters, so that
 * the same document always carries the same tag.
 */
import { type PDFContext, PDFHexString, type PDFRef } from 'pdf-lib';
import type { Typeface } from './typeface.ts';
import { unicodeMap } from './unicode-map.ts';

/** Six capital letters that depend on the characters alone (FNV-1a, 32 bits). */
function subsetTag(codePoints: readonly number[]): string {
  let hash = 0x811c9dc5;
  for (const codePoint of codePoints) hash = Math.imul(hash ^ codePoint, 0x01000193) >>> 0;
  let tag = '';
  for (let letter = 0; letter < 6; letter += 1) {
    tag += String.fromCharCode(65 + (hash % 26));
    hash = Math.floor(hash / 26);
  }
  return tag;
}

/** Big-endian pairs: the glyph of code 0 (none), then of each code in turn. */
function glyphTable(places: readonly number[]): Uint8Array {
  const table = new Uint8Array((places.length + 1) * 2);
  places.forEach((place, index) => {
    table[(index + 1) * 2] = place >> 8;
    table[(index + 1) * 2 + 1] = place & 0xff;
  });
  return table;
}

/** Registers the font and what belongs to it; call once, after the last text is shaped. */
export function embedTypeface(context: PDFContext, typeface: Typeface): PDFRef {
  const { file, used } = typeface;
  const codePoints = used.map((character) => character.codePoint);
  const subset = file.subset(used.map((character) => character.glyphId));
  const name = `${subsetTag(codePoints)}+${file.name}`;
  const descriptor = context.register(
    context.obj({
      Type: 'FontDescriptor',
      FontName: name,
      Flags: 4,
      FontBBox: [...file.box],
      ItalicAngle: file.italicAngle,
      Ascent: file.ascent,
      Descent: file.descent,
      CapHeight: file.capHeight,
      StemV: 80,
      FontFile2: context.register(context.flateStream(subset.bytes, { Length1: subset.bytes.length })),
    }),
  );
  const glyphs = context.register(
    context.obj({
      Type: 'Font',
      Subtype: 'CIDFontType2',
      BaseFont: name,
      CIDSystemInfo: {
        Registry: PDFHexString.of('41646f6265'), // "Adobe"
        Ordering: PDFHexString.of('4964656e74697479'), // "Identity"
        Supplement: 0,
      },
      FontDescriptor: descriptor,
      CIDToGIDMap: context.register(context.flateStream(glyphTable(subset.places))),
      W: [1, used.map((character) => character.advance)],
    }),
  );
  return context.register(
    context.obj({
      Type: 'Font',
      Subtype: 'Type0',
      BaseFont: name,
      Encoding: 'Identity-H',
      DescendantFonts: [glyphs],
      ToUnicode: context.register(context.flateStream(unicodeMap(codePoints))),
    }),
  );
}
