/**
 * What a row of the table of roles holds: a page or route, and what it answers to whom. The dairy, which buys, asks unless
 * a row says `side: 'seller'`.
 */
export const WHO = ['owner', 'bookkeeper', 'operator', 'viewer', 'stranger', 'nobody'] as const;
export type Who = (typeof WHO)[number];

export interface Ids {
  readonly agreement: string;
  /** A settled load. */
  readonly load: string;
  /** The invoice of the season. */
  readonly document: string;
  /** A lot that the dairy and its rival were invited to. */
  readonly lot: string;
  /** A lot that is the grower's alone. */
  readonly draft: string;
  /** The dairy's offer on the lot. */
  readonly offer: string;
  /** An offer of the dairy on it that it withdrew. */
  readonly endedOffer: string;
  /** Advice on that offer, and an adviser's draft in it. */
  readonly advice: string;
  readonly adviceDraft: string;
}

export interface Row {
  /** Method and file: "GET loads/page.tsx". */
  readonly route: string;
  /** Where a file has rows for several addresses. */
  readonly name?: string;
  readonly path: (ids: Ids) => string;
  readonly body?: (ids: Ids) => unknown;
  readonly side?: 'seller';
  readonly expected: Readonly<Record<Who, number>>;
}

export type Statuses = readonly [
  owner: number,
  bookkeeper: number,
  operator: number,
  viewer: number,
  stranger: number,
  nobody: number,
];

export function statuses(list: Statuses): Row['expected'] {
  return Object.fromEntries(WHO.map((who, index) => [who, list[index]])) as Row['expected'];
}

/** A page; whoever is not signed in is led to sign in. */
export function page(file: string, path: Row['path'], list: Statuses, name?: string): Row {
  const row = { route: `GET ${file}`, path, expected: statuses(list) };
  return name === undefined ? row : { ...row, name };
}

/** A route that is read. */
export const read = (file: string, path: Row['path'], list: Statuses): Row => ({
  route: `GET api/v1/${file}/route.ts`,
  path,
  expected: statuses(list),
});

interface Write {
  readonly body: Row['body'];
  readonly side?: 'seller';
}

/** A route under an agreement that is written to. */
export const write = (noun: string, list: Statuses, { body, side }: Write): Row => ({
  route: `POST api/v1/agreements/[id]/${noun}/route.ts`,
  path: ({ agreement }) => `/api/v1/agreements/${agreement}/${noun}`,
  expected: statuses(list),
  ...(body === undefined ? {} : { body }),
  ...(side === undefined ? {} : { side }),
});
