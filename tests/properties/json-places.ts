/**
 * Places in a plain document: every text with its path, and the document with one of them changed or left out.
 */
export type Path = readonly (string | number)[];
export type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

/** Every place in a document that holds a text, true or false, with its value. */
export function scalars(value: Json, path: Path = []): { path: Path; value: string | boolean }[] {
  if (typeof value === 'string' || typeof value === 'boolean') return [{ path, value }];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    scalars(inner as Json, [...path, Array.isArray(value) ? Number(key) : key]),
  );
}

/** Every place in a document that holds a text, with its text. */
export function leaves(document: Json): { path: Path; text: string }[] {
  return scalars(document).flatMap(({ path, value }) =>
    typeof value === 'string' ? [{ path, text: value }] : [],
  );
}

export function changed(document: Json, [key, ...rest]: Path, value: string | boolean): Json {
  if (key === undefined) return value;
  if (Array.isArray(document)) {
    return document.map((inner: Json, index) => (index === key ? changed(inner, rest, value) : inner));
  }
  const record = document as { readonly [key: string]: Json };
  return { ...record, [key]: changed(record[key] ?? '', rest, value) };
}

/** Every place that can be left out: the members of all groups. */
export function members(value: Json, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [];
  if (Array.isArray(value)) return value.flatMap((inner: Json, index) => members(inner, [...path, index]));
  return Object.entries(value).flatMap(([key, inner]) => [
    [...path, key],
    ...members(inner as Json, [...path, key]),
  ]);
}

export function removed(document: Json, [key, ...rest]: Path): Json {
  if (Array.isArray(document)) {
    return document.map((inner: Json, index) => (index === key ? removed(inner, rest) : inner));
  }
  const record = document as { readonly [key: string]: Json };
  if (rest.length === 0) return without(record, String(key));
  return { ...record, [String(key)]: removed(record[String(key)] ?? '', rest) };
}

function without(term: { readonly [key: string]: Json }, key: string): { readonly [key: string]: Json } {
  return Object.fromEntries(Object.entries(term).filter(([name]) => name !== key));
}
