/**
 * The document that describes /api/v1: a published validator takes it, it names every route, and what it says of rows is
 * what the use cases read.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { Validator } from '@seriousme/openapi-schema-validator';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { describeApi } from '../../src/app/api/describe-api.ts';
import { OPERATIONS } from '../../src/app/api/operations.ts';
import { TICKET_COLUMNS } from '../../src/usecases/loads/read-tickets.ts';
import { REFUSAL_CODES } from '../../src/usecases/refusal.ts';

const ROUTES = join('src', 'app', 'api', 'v1');
const api = JSON.parse(JSON.stringify(describeApi())) as {
  readonly paths: Readonly<Record<string, Readonly<Record<string, Described>>>>;
  readonly components: {
    readonly schemas: { readonly Problem: { properties: { code: { enum: string[] } } } };
  };
};

interface Described {
  readonly operationId: string;
  readonly summary: string;
  readonly security: readonly object[];
  readonly requestBody?: { readonly content: Readonly<Record<string, { readonly schema?: object }>> };
  readonly responses: Readonly<
    Record<string, { readonly content?: Readonly<Record<string, { readonly schema?: object }>> }>
  >;
}

const DESCRIBED = Object.entries(api.paths).flatMap(([path, methods]) =>
  Object.entries(methods).map(([method, of]) => ({ name: `${method.toUpperCase()} ${path}`, of })),
);

test('a published validator takes the document, and would not take a wrong one', async () => {
  // The schemas of https://spec.openapis.org/oas/3.1/, as @seriousme/openapi-schema-validator carries them.
  const verdict = await new Validator().validate(JSON.parse(JSON.stringify(api)));
  expect(verdict).toEqual({ valid: true });
  const wrong = { ...JSON.parse(JSON.stringify(api)), paths: { '/loads': { get: { responses: 'none' } } } };
  expect((await new Validator().validate(wrong)).valid).toBe(false);
});

test('it names every route and method under /api/v1, and no other', () => {
  const routes = readdirSync(ROUTES, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name === 'route.ts')
    .flatMap((entry) => {
      const path = relative(ROUTES, entry.parentPath).replace(/\[(\w+)\]/g, '{$1}');
      const text = readFileSync(join(entry.parentPath, entry.name), 'utf8');
      const methods = text.matchAll(/export (?:const|async function) (GET|POST|PUT|PATCH|DELETE)\b/g);
      return [...methods].map(([, method]) => `${method} /${path}`);
    });
  expect(DESCRIBED.map(({ name }) => name).sort()).toEqual(routes.sort());
  const ids = DESCRIBED.map(({ of }) => of.operationId);
  expect(new Set(ids).size).toBe(ids.length);
  expect(OPERATIONS).toHaveLength(ids.length - 1);
});

test('each route serves the operation of its own address', () => {
  const wrong = OPERATIONS.flatMap(({ path, method, id }) => {
    const folder = join(ROUTES, path.replace(/\{(\w+)\}/g, '[$1]'));
    const text = readFileSync(join(folder, 'route.ts'), 'utf8');
    const served = new RegExp(`export const ${method} = serve\\((\\w+)\\)`).exec(text)?.[1];
    const source = readdirSync(join('src', 'app', 'api', 'operations'))
      .map((name) => readFileSync(join('src', 'app', 'api', 'operations', name), 'utf8'))
      .join('\n');
    const defined = new RegExp(`export const ${served} = operation\\(\\{\\s*id: '(\\w+)'`).exec(source)?.[1];
    return defined === id ? [] : [`${method} ${path} serves ${defined} in place of ${id}`];
  });
  expect(wrong).toEqual([]);
});

describe.each(DESCRIBED.map(({ name, of }) => [name, of] as const))('%s', (_, of) => {
  test('has shapes that a validator of JSON Schema 2020-12 takes, and no binary figure of weight or money', () => {
    const contents = [of.requestBody?.content, ...Object.values(of.responses).map(({ content }) => content)];
    const shapes = contents.flatMap((content) =>
      Object.values(content ?? {}).flatMap(({ schema }) => (schema && !('$ref' in schema) ? [schema] : [])),
    );
    // A file has no shape, and whoever asks for one is answered with nothing else.
    const isFile = !('application/json' in (of.responses['200']?.content ?? {}));
    expect(shapes.length > 0).toBe(!isFile);
    for (const schema of shapes) {
      expect(new Ajv2020({ strict: false, validateFormats: false }).validateSchema(schema)).toBe(true);
      // Counts and versions are whole numbers; the two lengths of the load strip's picture are not.
      const numbers = [...JSON.stringify(schema).matchAll(/"(\w+)":\{[^{}]*"type":"number"/g)].map(
        ([, key]) => key,
      );
      expect(numbers.filter((key) => key !== 'share' && key !== 'length')).toEqual([]);
    }
  });
});

test('rows have the columns that tickets are read by, each explained with an example', () => {
  const [content] = Object.values(api.paths['/agreements/{id}/loads']?.['post']?.requestBody?.content ?? {});
  const schema = content?.schema as {
    properties: {
      loads: { items: { properties: object; required: string[]; additionalProperties: boolean } };
    };
  };
  const { properties, required, additionalProperties } = schema.properties.loads.items;
  expect(Object.keys(properties)).toEqual([...TICKET_COLUMNS.required, ...TICKET_COLUMNS.optional]);
  expect(required).toEqual(TICKET_COLUMNS.required);
  expect(additionalProperties).toBe(false);
});

test('every refusal is a kind of problem', () => {
  const { enum: codes } = api.components.schemas.Problem.properties.code;
  expect([...codes].sort()).toEqual([...REFUSAL_CODES, 'defect'].sort());
});
