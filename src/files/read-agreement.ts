/**
 * `agreement.json` from disk: as JSON (no comments, no key twice), then as an agreement. Faults carry line and column
 * beside their JSON path.
 */
import { basename } from 'node:path';
import { findNodeAtLocation, type Node, type ParseError, parseTree, printParseErrorCode } from 'jsonc-parser';
import { type AgreementParts, checkAgreement, NO_PARTS } from '../domain/agreement/check-agreement.ts';
import type { Agreement } from '../domain/agreement/document.ts';
import { DEEPEST_NESTING } from '../domain/agreement/free-block.ts';
import { type JsonPath, printPath } from '../domain/agreement/problem.ts';
import type { InputProblem } from './input-problem.ts';
import { readText, UnreadableFile } from './read-bytes.ts';

export interface AgreementFile {
  /** Undefined where the file has problems, all of which have been reported. */
  readonly agreement: Agreement | undefined;
  /** The document as it was written, which its fingerprint is taken of. */
  readonly document: unknown;
  readonly parts: AgreementParts;
}

const UNREAD: AgreementFile = { agreement: undefined, document: undefined, parts: NO_PARTS };

/** Reads and checks an agreement, reporting every problem; they call it by the last part of its path. */
export async function readAgreement(
  path: string,
  report: (problem: InputProblem) => void,
): Promise<AgreementFile> {
  const file = basename(path);
  let text: string;
  try {
    text = await readText(path, file);
  } catch (error) {
    if (!(error instanceof UnreadableFile)) throw error;
    report(error.problem);
    return UNREAD;
  }
  if (text.trim() === '') {
    report({
      file,
      message: 'is empty; it must hold an agreement, { "format": "huskledger-agreement/1", … }',
    });
    return UNREAD;
  }
  const place = placer(text);
  const deep = tooDeep(text);
  if (deep !== undefined) {
    report({
      file,
      ...place(deep),
      message: `has more than ${DEEPEST_NESTING} groups and lists within one another here; set it out flatter`,
    });
    return UNREAD;
  }
  const errors: ParseError[] = [];
  const tree = parseTree(text, errors, { disallowComments: true, allowTrailingComma: false });
  // The faults after the first are mostly its consequences.
  for (const { error, offset } of errors.slice(0, 1)) {
    report({ file, ...place(offset), message: `is not JSON here: ${inWords(printParseErrorCode(error))}` });
  }
  if (!tree || errors.length > 0) return UNREAD;
  const twice = repeatedKeys(tree, []);
  for (const { path, offset } of twice) {
    report({ file, path: printPath(path), ...place(offset), message: 'stands twice; remove one' });
  }
  const document: unknown = JSON.parse(text);
  const { agreement, problems, parts } = checkAgreement(document);
  for (const { path, message } of problems) {
    report({ file, path: printPath(path), ...place(nearestNode(tree, path).offset), message });
  }
  return { agreement: twice.length > 0 ? undefined : agreement, document, parts };
}

/** Where brackets first nest deeper than any agreement's, or undefined: parsers recurse, and would run out of stack. */
function tooDeep(text: string): number | undefined {
  let depth = 0;
  // A whole string in quotes (or the rest of one that is not closed), or one bracket.
  for (const { 0: token, index } of text.matchAll(/"(?:[^"\\]|\\.)*"?|[[\]{}]/gs)) {
    if (token === '{' || token === '[') depth++;
    else if (token === '}' || token === ']') depth--;
    if (depth > DEEPEST_NESTING) return index;
  }
  return undefined;
}

/** Line and column, from 1, of a place in the text. */
function placer(text: string): (offset: number) => { line: number; column: number } {
  return (offset) => {
    const before = text.slice(0, offset).split('\n');
    return { line: before.length, column: (before.at(-1)?.length ?? 0) + 1 };
  };
}

/** The node at a path or, where something is missing, the nearest one around it. */
function nearestNode(tree: Node, path: JsonPath): Node {
  for (let length = path.length; length > 0; length--) {
    const node = findNodeAtLocation(tree, [...path.slice(0, length)]);
    if (node) return node.parent?.type === 'property' ? node.parent : node;
  }
  return tree;
}

/** JSON lets a key stand twice and the last one win: in an agreement that would hide what was signed. */
function repeatedKeys(node: Node, path: JsonPath): { path: JsonPath; offset: number }[] {
  const children = node.children ?? [];
  if (node.type === 'array') return children.flatMap((child, index) => repeatedKeys(child, [...path, index]));
  if (node.type !== 'object') return [];
  const seen = new Set<string>();
  return children.flatMap((property) => {
    const [key, value] = property.children ?? [];
    const name = String(key?.value);
    const here = [...path, name];
    const repeated = seen.has(name) ? [{ path: here, offset: property.offset }] : [];
    seen.add(name);
    return value ? [...repeated, ...repeatedKeys(value, here)] : repeated;
  });
}

/** "PropertyNameExpected" as "property name expected". */
function inWords(code: string): string {
  return code
    .replace(/([a-z])([A-Z])/g, (_, before: string, after: string) => `${before} ${after.toLowerCase()}`)
    .toLowerCase();
}
