/**
 * Programs that ask under /api/v1 by a token, and operations driven by the document that describes them.
 */
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import type { Browser } from 'playwright-core';
import { expect } from 'vitest';
import { type ApiDocument, type Described, exampleOf } from './api-document.ts';
import { browseAs } from './browsers.ts';
import { type Ask, type Asking, strangerAt } from './http-caller.ts';
import type { Side } from './season-record.ts';

export interface TokenWanted {
  readonly side: Side;
  /** By kind of record, what it may: "read", "write" or both. */
  readonly scopes: Readonly<Record<string, string>>;
  readonly name?: string;
  readonly scripts?: boolean;
}

/** What a program needs that does everything. */
export const ALL = Object.fromEntries(
  ['loads', 'samples', 'results', 'quotes', 'settlements'].map((kind) => [kind, 'read write']),
);

/** A token that an owner of a side makes on the page. */
export async function makeToken(browser: Browser, address: string, wanted: TokenWanted): Promise<string> {
  const { side, scopes, name = 'test program', scripts = true } = wanted;
  const { page, context, complaints } = await browseAs(
    browser,
    { side, role: 'owner' },
    { address, scripts },
  );
  await page.goto('/people');
  await page.getByLabel('What the token is for').fill(name);
  for (const [kind, access] of Object.entries(scopes)) await page.selectOption(`[name=${kind}]`, access);
  await page.getByRole('button', { name: 'Make a token' }).click();
  await page.waitForSelector('.told .link-shown');
  const secret = (await page.locator('.told .link-shown').textContent()) ?? '';
  expect(secret).toMatch(/^hl_[A-Za-z0-9_-]{43}$/);
  expect(complaints).toEqual([]);
  await context.close();
  return secret;
}

/** Whoever shows this token, and no cookie. */
export function bearer(address: string, token: string): Ask {
  const nobody = strangerAt(address);
  return (asking) => nobody({ ...asking, headers: { ...asking.headers, authorization: `Bearer ${token}` } });
}

export type Body = Record<string, unknown>;

export interface Driving {
  readonly ask: Ask;
  /** What stands in the braces of the path. */
  readonly in?: Readonly<Record<string, string>>;
  readonly query?: string;
  /** Makes the body of the document's own example. */
  readonly body?: (example: Body) => object;
  readonly file?: NonNullable<Asking['file']>;
  readonly status?: number;
}

export interface DrivenApi {
  readonly api: ApiDocument;
  /** Ids of operations that did what they say. */
  readonly driven: ReadonlySet<string>;
  /** Asks for an operation as the document says, and holds the answer to it. */
  readonly drive: (operationId: string, driving: Driving) => Promise<Body>;
}

export async function openApi(address: string): Promise<DrivenApi> {
  const api = (await (await strangerAt(address)({ path: '/api/v1/openapi.json' })).json()) as ApiDocument;
  const ajv = new Ajv2020({ strict: false, validateFormats: false });
  ajv.addSchema({ $id: 'api', ...api });
  const driven = new Set<string>();
  const drive = async (operationId: string, driving: Driving): Promise<Body> => {
    const { ask, query = '', body, file, status = 200 } = driving;
    const { path, method, of } = find(api, operationId);
    const schema = of.requestBody?.content['application/json']?.schema;
    const example = schema ? (exampleOf(schema) as Body) : undefined;
    const sent = example && body ? body(example) : example;
    if (sent && schema && status === 200) expectFits(ajv.compile(schema), sent);
    if (file) expect(Object.keys(of.requestBody?.content ?? {})).toContain(file.kind);
    const answer = await ask({
      method: method === 'post' ? 'POST' : 'GET',
      path: `/api/v1${path.replace(/\{(\w+)\}/g, (_, name: string) => driving.in?.[name] ?? '')}${query}`,
      ...(sent === undefined ? {} : { body: sent }),
      ...(file === undefined ? {} : { file }),
    });
    const content = of.responses[String(status)]?.content ?? {};
    const kind = (answer.headers.get('content-type') ?? '').split(';')[0] ?? '';
    const told = /json$/.test(kind) ? ((await answer.json()) as Body) : await fileOf(answer);
    expect(answer.status, `${operationId} ${JSON.stringify(told)}`).toBe(status);
    expect(Object.keys(content)).toContain(kind);
    const promised = content[kind]?.schema;
    if (promised) {
      const pointed = promised.$ref === undefined ? strictly(promised) : { $ref: `api${promised.$ref}` };
      expectFits(ajv.compile(pointed), told);
    }
    if (status === 200) driven.add(operationId);
    return told;
  };
  return { api, driven, drive };
}

async function fileOf(answer: Response): Promise<Body> {
  return {
    begins: Buffer.from(await answer.arrayBuffer())
      .subarray(0, 5)
      .toString('latin1'),
  };
}

/** The document lets answers gain keys; this program's own have none that it does not name. */
function strictly(schema: object): object {
  return JSON.parse(JSON.stringify(schema), (_, value: unknown) =>
    isOpenObject(value) ? { ...value, additionalProperties: false } : value,
  ) as object;
}

function isOpenObject(value: unknown): value is object {
  if (typeof value !== 'object' || value === null || !('type' in value)) return false;
  return value.type === 'object' && 'properties' in value && !('additionalProperties' in value);
}

function expectFits(validate: ValidateFunction, value: unknown): void {
  const fits = validate(value);
  expect(fits, fits ? '' : JSON.stringify({ errors: validate.errors, value }, null, 1)).toBe(true);
}

function find(api: ApiDocument, operationId: string): { path: string; method: string; of: Described } {
  for (const [path, methods] of Object.entries(api.paths)) {
    for (const [method, of] of Object.entries(methods)) {
      if (of.operationId === operationId) return { path, method, of };
    }
  }
  throw new Error(`The document names no operation ${operationId}`);
}

/** Rows in place of the example's one, each the example with some figures of its own. */
export function rowsOf(name: string, ...rows: readonly object[]): (example: Body) => object {
  return (example) => {
    const [row] = example[name] as readonly object[];
    return { ...example, [name]: rows.map((figures) => ({ ...row, ...figures })) };
  };
}

/** Some figures put into the example's row of that name. */
export function rowOf(name: string, figures: object, beside: object = {}): (example: Body) => object {
  return (example) => ({ ...example, [name]: { ...(example[name] as object), ...figures }, ...beside });
}
