/**
 * A server that ends connections at any moment, as its restart or its administrator does: the program lives on, and the
 * record keeps its word.
 */
import { setTimeout as pause } from 'node:timers/promises';
import { Client } from 'pg';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { SERVER } from '../test-record.ts';
import { bundleWorker, type Program } from './bundle-worker.ts';
import { brokenWords, newWord, takeIn } from './kept-word.ts';
import { openPlaces, type Places, withRecord } from './record-place.ts';
import { startWorker } from './start-worker.ts';

let program: Program;
let places: Places;
beforeAll(async () => {
  [program, places] = await Promise.all([bundleWorker(), openPlaces()]);
}, 120_000);
afterAll(async () => {
  await Promise.all([program.remove(), places.close()]);
});

test.skipIf(SERVER === undefined)('connections that end under load', { timeout: 180_000 }, async () => {
  const { place, season } = await places.newPlace();
  const errand = { ...place, season, lanes: 8, name: 'one', seed: 7, reopens: false, again: [] };
  const worker = startWorker(program.path, errand);
  await worker.hear('ready');
  const administrator = new Client({ connectionString: place.databaseUrl });
  await administrator.connect();
  for (let turn = 0; turn < 60; turn++) {
    await administrator.query(
      'SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid()',
    );
    await pause(turn * 2);
  }
  await administrator.end();
  expect(worker.said.some(({ said }) => said === 'failed')).toBe(true);
  await worker.hear('answered', worker.said.length);
  expect(await worker.finish()).toEqual({ status: 0, errors: '' });
  const word = newWord();
  takeIn(word, worker.said);
  await withRecord(place, async (tools) => expect(await brokenWords(tools, word)).toEqual([]));
});
