/**
 * The document that describes /api/v1 (OpenAPI 3.1), made from the operations themselves.
 */
import { z } from 'zod';
import { SCOPE_NAMES, SCOPES } from '../../domain/parties/scopes.ts';
import { groupRows } from '../../usecases/group-rows.ts';
import type { RefusalCode } from '../../usecases/refusal.ts';
import { type Described, type FileAnswer, isShape, type RawBody } from './operation.ts';
import { GROUPS } from './operations.ts';
import { PROBLEM_WORDS, type ProblemCode, problemStatus } from './problem-words.ts';

type Json = Record<string, unknown>;

const PROBLEM = z.strictObject({
  type: z.string().meta({ format: 'uri-reference', description: 'Where the kind of refusal is explained.' }),
  title: z.string(),
  status: z.int(),
  detail: z.string().describe('What is refused this time and why, in words for a person.'),
  code: z.enum(Object.keys(PROBLEM_WORDS) as [ProblemCode, ...ProblemCode[]]),
  problems: z
    .array(
      z.strictObject({
        row: z.int().optional().describe('Counted from 0.'),
        column: z.string().optional(),
        message: z.string(),
      }),
    )
    .describe('Every fault of the request; empty for other refusals.'),
});

const WELCOME = `Everything that the pages can do with loads, results, quotes and settlements. Weights, tests, prices and
amounts are texts, so that nothing rounds them. A program shows a token of its party, \`Authorization: Bearer hl_…\`, that an
owner made under “People and sign-ins”. A request that records something is done once however often it comes with the same
\`Idempotency-Key\`. A refusal is problem details (RFC 9457): \`code\` says which, \`detail\` says it in words, \`problems\`
names every fault.

${SCOPES.map((scope) => `- \`${scope}\`: ${SCOPE_NAMES[scope]}`).join('\n')}`;

/** What any request may be refused for. */
const ALWAYS: readonly ProblemCode[] = [
  'not-signed-in',
  'wrong-sign-in',
  'too-many-tries',
  'not-allowed',
  'defect',
];
const WRITING: readonly RefusalCode[] = ['bad-input', 'key-reused'];

export function describeApi(): Json {
  return {
    openapi: '3.1.0',
    info: {
      title: 'Huskledger',
      version: '1',
      description: WELCOME,
      license: { name: 'MIT', identifier: 'MIT' },
    },
    servers: [{ url: '/api/v1' }],
    tags: GROUPS.map(({ name }) => ({ name })),
    paths: { ...describePaths(), '/openapi.json': { get: THIS_DOCUMENT } },
    components: {
      schemas: { Problem: schemaOf(PROBLEM, 'output') },
      parameters: { IdempotencyKey: IDEMPOTENCY_KEY },
      securitySchemes: {
        token: { type: 'http', scheme: 'bearer', description: 'A token of a party, beginning with hl_.' },
        session: {
          type: 'apiKey',
          in: 'cookie',
          name: 'huskledger-session',
          description: 'Of a person who is signed in; its name begins with __Secure- over https.',
        },
      },
    },
  };
}

const IDEMPOTENCY_KEY = {
  name: 'Idempotency-Key',
  in: 'header',
  required: false,
  description:
    'Chosen by the program, a new one for each thing to record. The same request with the same key again is answered as it was the first time and records nothing more; another request with it is refused.',
  schema: { type: 'string', pattern: '^[\\x21-\\x7e]{1,200}$' },
};

const THIS_DOCUMENT = {
  operationId: 'describe',
  summary: 'This document.',
  security: [],
  responses: {
    200: {
      description: 'An OpenAPI document.',
      content: { 'application/json': { schema: { type: 'object' } } },
    },
  },
};

function describePaths(): Json {
  const paths: Record<string, Json> = {};
  for (const { name, operations } of GROUPS) {
    for (const described of operations) {
      const before = paths[described.path] ?? {};
      paths[described.path] = { ...before, [described.method.toLowerCase()]: describe(described, name) };
    }
  }
  return paths;
}

function describe(described: Described, tag: string): Json {
  const { id, summary, scopes, body, method } = described;
  return {
    operationId: id,
    summary,
    tags: [tag],
    security: [...scopes.map((scope) => ({ token: [scope] })), { session: [] }],
    parameters: parametersOf(described),
    ...(body === undefined ? {} : { requestBody: { required: true, content: contentOf(body) } }),
    responses: {
      200: {
        description: method === 'GET' ? 'What is there.' : 'What came of it.',
        content: answerOf(described),
      },
      ...problemsOf(described),
    },
  };
}

function parametersOf({ path, query, method }: Described): Json[] {
  const names = [...path.matchAll(/\{(\w+)\}/g)].map((match) => match[1] ?? '');
  const inPath = names.map((name) => ({ name, in: 'path', required: true, schema: { type: 'string' } }));
  const { properties = {}, required = [] } = (query ? schemaOf(query, 'input') : {}) as {
    readonly properties?: Readonly<Record<string, Json>>;
    readonly required?: readonly string[];
  };
  const inQuery = Object.entries(properties).map(([name, { description, ...schema }]) => ({
    ...{ name, in: 'query', required: required.includes(name), schema },
    ...(description === undefined ? {} : { description }),
  }));
  const key = method === 'POST' ? [{ $ref: '#/components/parameters/IdempotencyKey' }] : [];
  return [...inPath, ...inQuery, ...key];
}

function contentOf(body: NonNullable<Described['body']>): Json {
  if (isShape(body)) return { 'application/json': { schema: schemaOf(body, 'input') } };
  return kindsOf(body);
}

function kindsOf({ kinds }: RawBody | FileAnswer): Json {
  return Object.fromEntries(kinds.map((kind) => [kind, {}]));
}

function answerOf({ answer }: Described): Json {
  return isShape(answer) ? { 'application/json': { schema: schemaOf(answer, 'output') } } : kindsOf(answer);
}

/** Refusals by their status, each named with what it means. */
function problemsOf({ refusals, method }: Described): Json {
  const codes = [...ALWAYS, ...(method === 'POST' ? WRITING : []), ...refusals];
  const byStatus = groupRows(codes, problemStatus);
  return Object.fromEntries(
    [...byStatus].map(([status, alike]) => [
      status,
      {
        description: alike.map((code) => `\`${code}\`: ${PROBLEM_WORDS[code].title}.`).join('\n'),
        content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
      },
    ]),
  );
}

/** Answers may gain keys in later versions of the program, so the document forbids none there. */
function schemaOf(shape: z.ZodType, io: 'input' | 'output'): Json {
  const { $schema: _, ...schema } = z.toJSONSchema(shape, {
    io,
    override: ({ jsonSchema }) => {
      if (io === 'output' && jsonSchema.additionalProperties === false)
        delete jsonSchema.additionalProperties;
    },
  });
  return schema;
}
