/**
 * The migrations and the schema say the same, and a database is brought up to date once, whoever starts first.
 */
import { readFile } from 'node:fs/promises';
import type { Client } from 'pg';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { schemaDifference } from '../../prisma/schema-difference.ts';
import { applyMigrations, readMigrations } from '../../src/store/engine/apply-migrations.ts';
import { MIGRATIONS, openTestRecord, type TestRecord } from './test-record.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());

function connection() {
  const { databaseUrl, dataFolder } = record.choice;
  return databaseUrl === undefined
    ? { host: dataFolder, user: 'postgres', database: 'postgres' }
    : { connectionString: databaseUrl };
}

test('there is nothing in the schema that the migrations do not make', async () => {
  const schema = await readFile('prisma/schema.prisma', 'utf8');
  expect(await schemaDifference(connection(), schema)).toBe('');
  const drifted = schema.replace('truck        String?', 'truck        String?\n  colour       String?');
  expect(drifted).not.toBe(schema);
  expect(await schemaDifference(connection(), drifted)).toContain('ADD COLUMN     "colour" TEXT');
});

test('a second start applies nothing', async () => {
  const client = await record.superuser();
  expect(await applyMigrations(client, MIGRATIONS)).toEqual([]);
  const { rows } = await client.query('SELECT migration_name, checksum FROM _prisma_migrations ORDER BY 1');
  const known = await readMigrations(MIGRATIONS);
  expect(rows).toEqual(known.map(({ name, checksum }) => ({ migration_name: name, checksum })));
  await client.end();
});

test('a database that is newer, or had another script, is refused in words', async () => {
  const client: Client = await record.superuser();
  await client.query(`UPDATE _prisma_migrations SET checksum = 'other'`);
  await expect(applyMigrations(client, MIGRATIONS)).rejects.toThrow(/Install this program anew/);
  await client.query(`UPDATE _prisma_migrations SET migration_name = '29990101000000_later'`);
  await expect(applyMigrations(client, MIGRATIONS)).rejects.toThrow(/newer than this program/);
  await client.end();
});
