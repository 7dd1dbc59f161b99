/**
 * What stands between the migrations and the schema, by Prisma's own schema engine: nothing, unless one of them was
 * changed without the other. Works offline, on an embedded database that is thrown away.
 */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { PrismaPg } from '@prisma/adapter-pg';
import { bindMigrationAwareSqlAdapterFactory, ColumnTypeEnum } from '@prisma/driver-adapter-utils';
import * as bindings from '@prisma/schema-engine-wasm/schema_engine_bg';
import { Pool, type PoolConfig, type QueryResult } from 'pg';

/** The statements that would bring a database to the schema; '' where it is there. */
export async function schemaDifference(connection: PoolConfig, schema: string): Promise<string> {
  await loadEngine();
  const pool = new Pool({ ...connection, max: 1 });
  const adapter = bindMigrationAwareSqlAdapterFactory(catalogAdapter(pool));
  const engine = await bindings.SchemaEngine.new(
    { datamodels: [['schema.prisma', schema]] },
    () => {},
    adapter,
  );
  const files = [{ path: 'schema.prisma', content: schema }];
  const { stdout } = await engine.diff({
    from: { tag: 'schemaDatasource', files, configDir: '.' },
    to: { tag: 'schemaDatamodel', files },
    script: true,
    exitCode: null,
    filters: { externalTables: ['public._prisma_migrations'], externalEnums: [] },
  });
  engine.free();
  await pool.end();
  return (stdout ?? '').replace(/^-- This is an empty migration\.\s*$/m, '').trim();
}

/**
 * The adapter, able to read PostgreSQL's catalogue: some of its columns are of the type "char", one byte, which the
 * adapter does not know and the engine does. The pool calls it text, and the answer calls it by its name again.
 */
function catalogAdapter(pool: Pool): PrismaPg {
  const oneByte = new Set<string>();
  const query = pool.query.bind(pool) as (...given: unknown[]) => Promise<QueryResult>;
  const asText = async (...given: unknown[]) => {
    const result = await query(...given);
    for (const field of result.fields) {
      if (field.dataTypeID !== CHAR) continue;
      field.dataTypeID = TEXT;
      oneByte.add(field.name);
    }
    return result;
  };
  const factory = new PrismaPg(Object.assign(pool, { query: asText }));
  const connect = factory.connect.bind(factory);
  factory.connect = async () => {
    const adapter = await connect();
    const queryRaw = adapter.queryRaw.bind(adapter);
    adapter.queryRaw = async (asked) => {
      const answer = await queryRaw(asked);
      const columnTypes = answer.columnTypes.map((type, index) =>
        oneByte.has(answer.columnNames[index] ?? '') ? ColumnTypeEnum.Character : type,
      );
      return { ...answer, columnTypes };
    };
    return adapter;
  };
  return factory;
}

const CHAR = 18;
const TEXT = 25;

let loaded: Promise<void> | undefined;

/** What the language's own library knows of WebAssembly, as far as it is needed here. */
declare const WebAssembly: {
  readonly instantiate: (
    bytes: Uint8Array,
    imports: object,
  ) => Promise<{ readonly instance: { readonly exports: Readonly<Record<string, unknown>> } }>;
};

/** Node 20 imports no WebAssembly by itself, as the package's own entry asks it to. */
function loadEngine(): Promise<void> {
  loaded ??= (async () => {
    const { resolve } = createRequire(import.meta.url);
    const path = resolve('@prisma/schema-engine-wasm/schema_engine_bg').replace(/\.js$/, '.wasm');
    const { instance } = await WebAssembly.instantiate(await readFile(path), {
      './schema_engine_bg.js': bindings,
    });
    (bindings as unknown as { __wbg_set_wasm: (wasm: unknown) => void }).__wbg_set_wasm(instance.exports);
    (instance.exports['__wbindgen_start'] as () => void)();
  })();
  return loaded;
}
