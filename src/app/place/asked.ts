/**
 * What an address asks for after its question mark.
 */
export type Asked = Readonly<Record<string, string | string[] | undefined>>;

/** One text; the first, where a name stands twice; undefined where it is absent or empty. */
export function askedText(asked: Asked, name: string): string | undefined {
  const value = Object.hasOwn(asked, name) ? asked[name] : undefined;
  const text = Array.isArray(value) ? value[0] : value;
  return text === undefined || text === '' ? undefined : text;
}

/** An address with those of the parts that hold something. */
export function addressOf(
  path: string,
  parts: Readonly<Record<string, string | number | undefined>>,
): string {
  const query = new URLSearchParams();
  for (const [name, value] of Object.entries(parts)) if (value !== undefined) query.set(name, String(value));
  const text = query.toString();
  return text === '' ? path : `${path}?${text}`;
}
