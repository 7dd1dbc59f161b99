/**
 * The document that describes /api/v1 as the tests read it, and requests made of its own examples.
 */

export interface Described {
  readonly operationId: string;
  readonly security: readonly { readonly token?: readonly string[] }[];
  readonly requestBody?: { readonly content: Content };
  readonly responses: Readonly<Record<string, { readonly content?: Content }>>;
}

type Content = Readonly<Record<string, { readonly schema?: Schema }>>;

export interface Schema {
  readonly $ref?: string;
  readonly type?: string;
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly default?: unknown;
  readonly examples?: readonly unknown[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly items?: Schema;
}

export interface ApiDocument {
  readonly paths: Readonly<Record<string, Readonly<Record<string, Described>>>>;
}

/** The smallest value that a schema takes, of its examples where it has some. */
export function exampleOf(schema: Schema): unknown {
  const { examples, properties = {}, required = [], items, type } = schema;
  if (examples) return examples[0];
  if ('const' in schema) return schema.const;
  if (schema.enum) return schema.enum[0];
  if ('default' in schema) return schema.default;
  switch (type) {
    case 'object':
      return Object.fromEntries(required.map((key) => [key, exampleOf(properties[key] ?? {})]));
    case 'array':
      return [exampleOf(items ?? {})];
    case 'string':
      return 'text';
    case 'integer':
      return 1;
    case 'boolean':
      return false;
    default:
      return {};
  }
}
