/**
 * XML as it is written, read back by libxml2: any text comes back as it was, but for characters that XML 1.0 forbids.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { branch, fitsXml, leaf, printXml } from '../../src/documents/xml/xml-text.ts';
import { readXml } from './xml-reader.ts';

/** Char of XML 1.0, section 2.2: #x9 | #xA | #xD | [#x20-#xD7FF] | [#xE000-#xFFFD] | [#x10000-#x10FFFF]. */
function isChar(code: number): boolean {
  if (code < 0x20) return code === 9 || code === 10 || code === 13;
  return code <= 0xd7ff || (code >= 0xe000 && code <= 0xfffd) || code >= 0x10000;
}

const written = (text: string) => printXml(leaf('a', text, { b: text }));

describe('characters', () => {
  test.each([
    ['<b> & "c"', '<a b="&lt;b&gt; &amp; &quot;c&quot;">&lt;b&gt; &amp; "c"</a>'],
    [']]>', '<a b="]]&gt;">]]&gt;</a>'],
    ['a\tb\nc\rd', '<a b="a&#9;b&#10;c&#13;d">a\tb\nc&#13;d</a>'],
    ['\u0000\u0008\uFFFE\uD800', `<a b="${'\u{FFFD}'.repeat(4)}">${'\u{FFFD}'.repeat(4)}</a>`],
    ['Łódź \u{1F33D}', '<a b="Łódź \u{1F33D}">Łódź \u{1F33D}</a>'],
  ])('%j', (text, expected) => {
    expect(written(text)).toBe(`<?xml version="1.0" encoding="UTF-8"?>\n${expected}\n`);
  });

  test('a parser of others takes any text and gives it back, what is forbidden as U+FFFD', () => {
    // Halves of pairs, controls and marks among the rest.
    const text = fc
      .array(fc.oneof(fc.integer({ min: 0, max: 0x2100 }), fc.integer({ min: 0xd700, max: 0x10ffff })))
      .map((codes) => codes.map((code) => String.fromCodePoint(code)).join(''));
    fc.assert(
      fc.property(text, (any) => {
        const codes = [...any].map((one) => one.codePointAt(0) ?? 0);
        const expected = codes
          .map((code) => (isChar(code) ? String.fromCodePoint(code) : '\u{FFFD}'))
          .join('');
        const { text: read, attributes } = readXml(written(any));
        expect(read).toBe(expected);
        expect(attributes).toEqual({ b: expected });
        expect(fitsXml(any)).toBe(codes.every(isChar));
      }),
      { numRuns: 500 },
    );
  });
});

test('elements stand one below the other; what is missing is left out, what is empty closes itself', () => {
  expect(printXml(branch('a', [leaf('b', '1'), null, undefined, branch('c', [leaf('d', '')])]))).toBe(
    '<?xml version="1.0" encoding="UTF-8"?>\n<a>\n <b>1</b>\n <c>\n  <d/>\n </c>\n</a>\n',
  );
});

test('the reader of these tests turns back what is not well-formed', () => {
  expect(() => readXml('<a>&</a>')).toThrow();
  expect(() => readXml('<a>\u0001</a>')).toThrow();
});
