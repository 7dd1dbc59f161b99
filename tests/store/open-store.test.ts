import { mkdtemp } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openStore } from '../../src/store/open-store.ts';

test('spike', async () => {
  const dataFolder = await mkdtemp(join(tmpdir(), 'hl-'));
  console.time('open');
  const choice = { databaseUrl: undefined, dataFolder, migrations: 'prisma/migrations' };
  const store = await openStore(choice);
  console.timeEnd('open');
  console.time('open2');
  const second = await openStore(choice);
  console.timeEnd('open2');
  console.log(store.description, second.description);
  console.time('tx');
  for (let i = 0; i < 100; i++) await second.atDoor((tx) => tx.party.create({ data: { id: crypto.randomUUID(), name: 'x' } }));
  console.timeEnd('tx');
  expect(await store.atDoor((tx) => tx.party.count())).toBe(100);
  await expect(store.atDoor((tx) => tx.load.count())).rejects.toThrow(/permission denied/);
  expect(await store.forParty(crypto.randomUUID(), (tx) => tx.load.count())).toBe(0);
  await second.close();
  await store.close();
}, 60000);
