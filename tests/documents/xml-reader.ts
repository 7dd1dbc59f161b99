/**
 * Reads XML back with libxml2, a parser that is not ours and takes nothing that is not well-formed, as plain trees.
 */
import { XmlDocument, XmlElement, XmlText } from 'libxml2-wasm';

export interface ReadElement {
  /** With its prefix, as it was written. */
  readonly name: string;
  readonly namespace: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly ReadElement[];
  /** Of an element without elements; otherwise empty. */
  readonly text: string;
}

/** The root element. Throws XmlParseError where the text is not well-formed. */
export function readXml(text: string): ReadElement {
  const document = XmlDocument.fromString(text);
  try {
    return readElement(document.root);
  } finally {
    document.dispose();
  }
}

function readElement(element: XmlElement): ReadElement {
  const children: ReadElement[] = [];
  let text = '';
  for (let node = element.firstChild; node !== null; node = node.next) {
    if (node instanceof XmlElement) children.push(readElement(node));
    else if (node instanceof XmlText) text += node.content;
  }
  return {
    name: element.prefix === '' ? element.name : `${element.prefix}:${element.name}`,
    namespace: element.namespaceUri,
    attributes: Object.fromEntries(element.attrs.map(({ name, value }) => [name, value])),
    children,
    text: children.length === 0 ? text : '',
  };
}

/** Every element at a path of names below one: `all(root, 'cac:TaxTotal', 'cbc:TaxAmount')`. */
export function all(element: ReadElement, ...path: readonly string[]): ReadElement[] {
  const [name, ...rest] = path;
  if (name === undefined) return [element];
  return element.children.filter((child) => child.name === name).flatMap((child) => all(child, ...rest));
}

/** The texts at a path. */
export function texts(element: ReadElement, ...path: readonly string[]): string[] {
  return all(element, ...path).map(({ text }) => text);
}

/** Every element of a document, the root first. */
export function everyElement(element: ReadElement): ReadElement[] {
  return [element, ...element.children.flatMap(everyElement)];
}
