/**
 * Reading and changing a draft agreement by path. The draft is the document itself, as plain JSON that may be half
 * filled in; nothing is changed in place. A text that is emptied leaves the document, with the optional group or list
 * that it was the last of.
 */
import type { JsonPath } from '../../domain/agreement/problem.ts';

/** An agreement document of any state. */
export type Draft = Readonly<Record<string, unknown>>;

type Group = Readonly<Record<string | number, unknown>>;

/** Blocks whose groups mean nothing once they are empty. */
const PRUNED_BLOCKS: readonly unknown[] = ['tests', 'sampling', 'retest', 'conditions'];
/** Lists that are left out rather than empty. */
const OPTIONAL_LISTS: readonly unknown[] = [
  'acceptance',
  'above',
  'below',
  'deductions',
  'lienHolders',
  'parts',
];

function isHolder(value: unknown): value is Group {
  return typeof value === 'object' && value !== null;
}

/** What stands at a path; undefined where nothing does. */
export function readAt(document: unknown, path: JsonPath): unknown {
  let value = document;
  for (const key of path) {
    if (!isHolder(value) || !Object.hasOwn(value, key)) return undefined;
    value = value[key];
  }
  return value;
}

/** The document with `value` at the path, groups and lists made on the way; undefined takes what stands there away. */
export function writeAt(document: Draft, path: JsonPath, value: unknown): Draft {
  return value === undefined ? removeAt(document, path) : (written(document, path, value) as Draft);
}

function written(holder: unknown, path: JsonPath, value: unknown): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return value;
  const inner = isHolder(holder) && Object.hasOwn(holder, key) ? holder[key] : undefined;
  const changed = written(inner, rest, value);
  if (typeof key === 'number') {
    const list: unknown[] = Array.isArray(holder) ? [...holder] : [];
    list[key] = changed;
    return list;
  }
  return { ...(isHolder(holder) && !Array.isArray(holder) ? holder : {}), [key]: changed };
}

/** The document without what stands at the path; later members of a list move up. */
export function removeAt(document: Draft, path: JsonPath): Draft {
  const place = path.slice(0, -1);
  const key = path.at(-1);
  const holder = readAt(document, place);
  if (key === undefined || !isHolder(holder)) return document;
  const left = Array.isArray(holder)
    ? holder.filter((_, index) => index !== key)
    : Object.fromEntries(Object.entries(holder).filter(([name]) => name !== key));
  if (place.length > 0 && Object.keys(left).length === 0 && isLeftOut(left, place)) {
    return removeAt(document, place);
  }
  return writeAt(document, place, left);
}

function isLeftOut(left: unknown, place: JsonPath): boolean {
  return Array.isArray(left) ? OPTIONAL_LISTS.includes(place.at(-1)) : PRUNED_BLOCKS.includes(place[0]);
}

/** A list with one member moved; the list itself where there is no such place. */
export function moved<Member>(list: readonly Member[], from: number, to: number): readonly Member[] {
  const member = list[from];
  if (member === undefined || to < 0 || to >= list.length) return list;
  const others = list.filter((_, index) => index !== from);
  return [...others.slice(0, to), member, ...others.slice(to)];
}

/** The draft with a reference called otherwise, in its place, and each price line that follows it. */
export function renameReference(document: Draft, from: string, to: string): Draft {
  const references = document['references'];
  if (!isHolder(references)) return document;
  const renamed = Object.fromEntries(
    Object.entries(references).map(([name, reference]) => [name === from ? to : name, reference]),
  );
  const price = document['price'];
  const followed = Array.isArray(price)
    ? price.map((term: unknown) =>
        readAt(term, ['at', 'reference']) === from ? writeAt(term as Draft, ['at', 'reference'], to) : term,
      )
    : price;
  return { ...document, references: renamed, ...(price === undefined ? {} : { price: followed }) };
}

const STEP = /\.([A-Za-z_$][\w$-]*)|\[(\d+)\]|\[("(?:[^"\\]|\\.)*")\]/y;

/** `$.price[2].rate` as a path; undefined for a text that is none. The other way round is `printPath`. */
export function parsePath(printed: string): JsonPath | undefined {
  if (!printed.startsWith('$')) return undefined;
  const path: (string | number)[] = [];
  let at = 1;
  while (at < printed.length) {
    STEP.lastIndex = at;
    const [whole, word, index, quoted] = STEP.exec(printed) ?? [];
    if (whole === undefined) return undefined;
    path.push(index === undefined ? (word ?? (JSON.parse(quoted ?? '""') as string)) : Number(index));
    at += whole.length;
  }
  return path;
}

/** Where a field of the builder stands on the page. */
export function idOfPath(path: JsonPath): string {
  return ['formula-at', ...path.map((key) => String(key).replace(/[^A-Za-z0-9]/g, '_'))].join('-');
}

/** A value as a field shows it. */
export function shownText(value: unknown): string {
  if (value === undefined || value === null) return '';
  return typeof value === 'string' ? value : JSON.stringify(value);
}
