/**
 * `npm run migration NAME`: writes the next migration from what `schema.prisma` says and the migrations do not yet.
 */
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Client } from 'pg';
import { applyMigrations } from '../src/store/engine/apply-migrations.ts';
import { openEngine } from '../src/store/engine/open-engine.ts';
import { schemaDifference } from './schema-difference.ts';

const MIGRATIONS = 'prisma/migrations';

const name = process.argv[2] ?? '';
if (!/^[a-z][a-z_]*$/.test(name)) {
  console.error('Name the migration in small letters: npm run migration add_weighing_scales');
  process.exit(1);
}
const folder = await mkdtemp(join(tmpdir(), 'huskledger-migration-'));
const engine = await openEngine({ databaseUrl: undefined, dataFolder: folder });
const client = new Client(engine.connection);
await client.connect();
await applyMigrations(client, MIGRATIONS);
await client.end();
const script = await schemaDifference(engine.connection, await readFile('prisma/schema.prisma', 'utf8'));
await engine.close();
await rm(folder, { recursive: true, force: true });
if (script === '') {
  console.log('The migrations say all that the schema does.');
} else {
  const moment = new Date().toISOString().replace(/\D/g, '').slice(0, 14);
  const place = join(MIGRATIONS, `${moment}_${name}`);
  await mkdir(place);
  await writeFile(join(place, 'migration.sql'), `${script}\n`);
  console.log(`Wrote ${place}/migration.sql. Add what the schema cannot say: policies, triggers, grants.`);
}
