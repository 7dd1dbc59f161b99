/**
 * One data folder and several processes: one owns it, the others work through it; where it does not answer they are
 * told so in bounded time. Nothing is lost either way.
 */
import { spawn } from 'node:child_process';
import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { dirname, join } from 'node:path';
import { setImmediate as immediately } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openEngine } from '../../../src/store/engine/open-engine.ts';
import { SERVER } from '../test-record.ts';
import { bundleWorker, type Program } from './bundle-worker.ts';
import { brokenWords, newWord, takeIn } from './kept-word.ts';
import { newSeason } from './new-season.ts';
import { openPlaces, type Place, type Places, withRecord } from './record-place.ts';
import type { Errand, Season } from './said.ts';
import { startWorker, type Worker } from './start-worker.ts';

let program: Program;
let places: Places;
beforeAll(async () => {
  [program, places] = await Promise.all([bundleWorker(), openPlaces()]);
}, 120_000);
afterAll(async () => {
  await Promise.all([program.remove(), places.close()]);
});

function start(place: Place, name: string, season?: Season, more: Partial<Errand> = {}): Worker {
  return startWorker(program.path, {
    ...place,
    season,
    lanes: 2,
    name,
    seed: 7,
    reopens: false,
    again: [],
    ...more,
  });
}

async function expectKept(place: Place, workers: readonly Worker[]): Promise<void> {
  const word = newWord();
  for (const { said } of workers) takeIn(word, said);
  expect(word.answered.size).toBeGreaterThan(0);
  await withRecord(place, async (tools) => expect(await brokenWords(tools, word)).toEqual([]));
}

/** An answer to something that is asked from now on. */
async function newAnswer(worker: Worker): Promise<void> {
  const { asked } = await worker.hear('asking', worker.said.length);
  while (!worker.said.some((line) => line.said === 'answered' && line.key === asked.key)) {
    await worker.hear('answered', worker.said.length);
  }
}

describe.skipIf(SERVER !== undefined)('one data folder', { timeout: 180_000 }, () => {
  test.each([
    ['ends', async (first: Worker) => expect(await first.finish()).toEqual({ status: 0, errors: '' })],
    ['is killed', (first: Worker) => first.kill()],
  ])('the second works through the first, and takes over when it %s', async (_, stop) => {
    const { place, season } = await places.newPlace();
    const first = start(place, 'first', season);
    const owner = await first.hear('ready');
    const second = start(place, 'second', season);
    const joined = await second.hear('ready');
    expect(joined.description).toBe(`${owner.description}, through the process that owns it`);
    await Promise.all([newAnswer(first), newAnswer(second)]);
    await stop(first);
    await newAnswer(second);
    const third = start(place, 'third', season);
    await newAnswer(third);
    for (const worker of [third, second]) expect(await worker.finish()).toEqual({ status: 0, errors: '' });
    await expectKept(place, [first, second, third]);
  });

  test('whoever comes to an owner that does not answer is told so, and may come again later', async () => {
    const { place, season } = await places.newPlace();
    const first = start(place, 'first', season);
    await first.hear('answered');
    first.signal('SIGSTOP');
    const [began, second] = [performance.now(), start(place, 'second', season)];
    const told = await second.hear('unavailable').finally(() => first.signal('SIGCONT'));
    expect(performance.now() - began).toBeLessThan(40_000);
    expect(told.message).toBe(
      `Another process has the data folder ${place.dataFolder} but does not answer. Wait until it has started, or end it, and try again.`,
    );
    expect((await second.finish()).status).toBe(1);
    await newAnswer(first);
    const third = start(place, 'third', season);
    await newAnswer(third);
    for (const worker of [third, first]) expect(await worker.finish()).toEqual({ status: 0, errors: '' });
    await expectKept(place, [first, third]);
  });

  test('an owner in another container, whose hold is not seen from here, is joined all the same', async () => {
    const { dataFolder } = await places.emptyPlace();
    const elsewhere = createServer((socket) => socket.once('data', () => socket.end('N')));
    await new Promise<void>((resolve) => elsewhere.listen(join(dataFolder, '.s.PGSQL.5432'), resolve));
    const engine = await openEngine({ databaseUrl: undefined, dataFolder });
    expect(engine.description).toBe(`the data folder ${dataFolder}, through the process that owns it`);
    await engine.close();
    elsewhere.close();
  });

  test('many that start at once on a new folder have one owner', async () => {
    const place = await places.emptyPlace();
    const workers = ['1', '2', '3', '4'].map((name) => start(place, name));
    const descriptions = await Promise.all(
      workers.map(async (worker) => (await worker.hear('ready')).description),
    );
    expect(descriptions.filter((text) => text.endsWith('the process that owns it')).length).toBe(3);
    await Promise.all(workers.map((worker) => worker.kill()));
  });

  test('a folder whose making was cut short is made anew', async () => {
    const place = await places.emptyPlace();
    const path = join(dirname(program.path), 'cut-short.json');
    writeFileSync(
      path,
      JSON.stringify({ ...place, lanes: 0, name: 'first', seed: 1, reopens: false, again: [] }),
    );
    const child = spawn(process.execPath, [program.path, path], { stdio: 'ignore' });
    const ended = new Promise((resolve) => child.once('close', resolve));
    // From here on, what is there looks like a database; much of it is still to come.
    const begun = () =>
      readdirSync(place.dataFolder).some((name) => existsSync(join(place.dataFolder, name, 'PG_VERSION')));
    while (!begun()) await immediately();
    child.kill('SIGKILL');
    await ended;
    const season = await withRecord(place, newSeason);
    const second = start(place, 'second', season);
    await newAnswer(second);
    await second.finish();
    await expectKept(place, [second]);
  });
});
