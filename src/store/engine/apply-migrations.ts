/**
 * Brings a database up to date at start: the scripts of `prisma/migrations` that it has not had, in order, one
 * process at a time. Keeps Prisma's own book of them, so that its ordinary tools agree.
 */
import { createHash, randomUUID } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { ClientBase } from 'pg';
import { EngineUnavailable } from './open-engine.ts';

interface Migration {
  readonly name: string;
  readonly script: string;
  /** SHA-256 of the script, in hexadecimal, as Prisma books it. */
  readonly checksum: string;
}

/** Any number that no other use of advisory locks has. */
const MIGRATION_LOCK = 7_421_907_311;

const BOOK = `CREATE TABLE IF NOT EXISTS _prisma_migrations (
  id VARCHAR(36) PRIMARY KEY NOT NULL,
  checksum VARCHAR(64) NOT NULL,
  finished_at TIMESTAMPTZ,
  migration_name VARCHAR(255) NOT NULL,
  logs TEXT,
  rolled_back_at TIMESTAMPTZ,
  started_at TIMESTAMPTZ NOT NULL DEFAULT now(),
  applied_steps_count INTEGER NOT NULL DEFAULT 0
)`;

/**
 * Applies what is missing, in one transaction: whole, or not at all. Returns the names of what was applied.
 * Throws `EngineUnavailable` where the database was brought up to date by a newer version, or a script was changed.
 */
export async function applyMigrations(client: ClientBase, folder: string): Promise<readonly string[]> {
  const migrations = await readMigrations(folder);
  await client.query('BEGIN');
  try {
    await client.query('SELECT pg_advisory_xact_lock($1)', [MIGRATION_LOCK]);
    await client.query(BOOK);
    const applied = await readBook(client);
    checkBook(migrations, applied);
    const missing = migrations.filter(({ name }) => !applied.has(name));
    for (const migration of missing) await apply(client, migration);
    await client.query('COMMIT');
    return missing.map(({ name }) => name);
  } catch (error) {
    await client.query('ROLLBACK');
    throw error;
  }
}

/** The scripts, in the order of their names. */
export async function readMigrations(folder: string): Promise<readonly Migration[]> {
  const entries = await readdir(folder, { withFileTypes: true });
  const names = entries.filter((entry) => entry.isDirectory()).map(({ name }) => name);
  return await Promise.all(
    names.sort().map(async (name) => {
      const script = await readFile(join(folder, name, 'migration.sql'), 'utf8');
      return { name, script, checksum: createHash('sha256').update(script).digest('hex') };
    }),
  );
}

async function readBook(client: ClientBase): Promise<ReadonlyMap<string, string>> {
  const { rows } = await client.query<{ migration_name: string; checksum: string }>(
    'SELECT migration_name, checksum FROM _prisma_migrations WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL',
  );
  return new Map(rows.map(({ migration_name, checksum }) => [migration_name, checksum]));
}

function checkBook(migrations: readonly Migration[], applied: ReadonlyMap<string, string>): void {
  for (const [name, checksum] of applied) {
    const known = migrations.find((migration) => migration.name === name);
    if (!known) {
      throw new EngineUnavailable(
        `The database is newer than this program (it has had ${name}). Start the version that it was last used with, or a later one.`,
      );
    }
    if (known.checksum !== checksum) {
      throw new EngineUnavailable(
        `The migration ${name} is not the one that the database has had. Install this program anew.`,
      );
    }
  }
}

async function apply(client: ClientBase, { name, script, checksum }: Migration): Promise<void> {
  await client.query(script);
  await client.query(
    'INSERT INTO _prisma_migrations (id, checksum, migration_name, finished_at, applied_steps_count) VALUES ($1, $2, $3, now(), 1)',
    [randomUUID(), checksum, name],
  );
}
