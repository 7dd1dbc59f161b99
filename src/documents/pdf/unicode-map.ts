/**
 * The table inside a PDF font that says which character each code stands for.
 * Readers use it to copy, search and read aloud; without it the page is a picture of text.
 */

/** The format allows at most this many entries in one block. */
const ENTRIES_PER_BLOCK = 100;

function hex4(value: number): string {
  return value.toString(16).padStart(4, '0');
}

function utf16(codePoint: number): string {
  const text = String.fromCodePoint(codePoint);
  let hex = '';
  for (let index = 0; index < text.length; index += 1) hex += hex4(text.charCodeAt(index));
  return hex;
}

/** The ToUnicode program for codes 1, 2, 3 … standing for these code points in turn. */
export function unicodeMap(codePoints: readonly number[]): string {
  const entries = codePoints.map((codePoint, index) => `<${hex4(index + 1)}> <${utf16(codePoint)}>`);
  const blocks: string[] = [];
  for (let start = 0; start < entries.length; start += ENTRIES_PER_BLOCK) {
    const block = entries.slice(start, start + ENTRIES_PER_BLOCK);
    blocks.push(`${block.length} beginbfchar\n${block.join('\n')}\nendbfchar`);
  }
  return [
    '/CIDInit /ProcSet findresource begin',
    '12 dict begin',
    'begincmap',
    '/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def',
    '/CMapName /Adobe-Identity-UCS def',
    '/CMapType 2 def',
    '1 begincodespacerange',
    '<0000> <ffff>',
    'endcodespacerange',
    ...blocks,
    'endcmap',
    'CMapName currentdict /CMap defineresource pop',
    'end',
    'end',
  ].join('\n');
}
