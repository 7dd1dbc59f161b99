/**
 * XML 1.0 as text: elements that hold either text or elements, printed with one space more at each depth, always the
 * same for the same data. Names and attributes' names are ours and are not checked.
 */

export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly content: string | readonly XmlElement[];
}

/** Everything that is no Char of XML 1.0 (section 2.2), halves of surrogate pairs included. */
const FORBIDDEN = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu;

/** Whether XML 1.0 has a place for every character of a text: not so for U+0000, U+FFFE or half a pair. */
export function fitsXml(text: string): boolean {
  return text.search(FORBIDDEN) < 0;
}

/** An element that holds text: `leaf('cbc:ID', '17')`. */
export function leaf(
  name: string,
  text: string,
  attributes: Readonly<Record<string, string>> = {},
): XmlElement {
  return { name, attributes, content: text };
}

/** An element that holds elements; what is `null` or `undefined` among them is left out. */
export function branch(
  name: string,
  children: readonly (XmlElement | null | undefined)[],
  attributes: Readonly<Record<string, string>> = {},
): XmlElement {
  return { name, attributes, content: children.filter((child) => child !== null && child !== undefined) };
}

/**
 * The document with its declaration, UTF-8, lines ended by LF. A character that XML forbids becomes U+FFFD, the
 * replacement character: a reader sees that something stood there, and the document stays well-formed.
 */
export function printXml(root: XmlElement): string {
  return `<?xml version="1.0" encoding="UTF-8"?>\n${printElement(root, '')}`;
}

function printElement({ name, attributes, content }: XmlElement, indent: string): string {
  const start = Object.entries(attributes).map(
    ([key, value]) => ` ${key}="${escaped(value, /[&<>"\t\n\r]/g)}"`,
  );
  const open = `${indent}<${name}${start.join('')}`;
  if (content.length === 0) return `${open}/>\n`;
  // A bare CR, or one before LF, would be read back as LF.
  if (typeof content === 'string') return `${open}>${escaped(content, /[&<>\r]/g)}</${name}>\n`;
  const inside = content.map((child) => printElement(child, `${indent} `)).join('');
  return `${open}>\n${inside}${indent}</${name}>\n`;
}

const NAMED: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

function escaped(text: string, marks: RegExp): string {
  return text
    .replace(FORBIDDEN, '\u{FFFD}')
    .replace(marks, (mark) => NAMED[mark] ?? `&#${mark.charCodeAt(0)};`);
}
