/**
 * One load settled fifty times at once, from two processes: it is settled once, and every call is answered the same.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { ask } from './ask.ts';
import { bundleWorker, type Program } from './bundle-worker.ts';
import { brokenWords, newWord, takeIn } from './kept-word.ts';
import { openPlaces, type Places, withRecord } from './record-place.ts';
import type { Asked } from './said.ts';
import { startWorker } from './start-worker.ts';
import { truckloads } from './truckloads.ts';

let program: Program;
let places: Places;
beforeAll(async () => {
  [program, places] = await Promise.all([bundleWorker(), openPlaces()]);
}, 120_000);
afterAll(async () => {
  await Promise.all([program.remove(), places.close()]);
});

const TIMES = 25;

test.each([
  ['each call by itself', false],
  ['all with one request key', true],
])('%s', { timeout: 180_000 }, async (_, withKey) => {
  const { place, season } = await places.newPlace();
  const word = newWord();
  const settle = await withRecord(place, async (tools) => {
    const agreementId = season.agreementIds[0] ?? '';
    const work = truckloads({ name: 'one', seed: 1, agreementId, most: 1 });
    const loads = work.next();
    const recorded = await ask(tools, season, loads.value);
    const results = work.next(recorded);
    const settle = work.next(await ask(tools, season, results.value)).value;
    for (const asked of [loads.value, results.value]) takeIn(word, [{ said: 'asking', asked }]);
    return settle;
  });
  const errand = {
    ...place,
    season,
    lanes: 0,
    seed: 1,
    reopens: false,
    again: [],
    atOnce: { asked: settle, times: TIMES, withKey },
  };
  const workers = ['first', 'second'].map((name) => startWorker(program.path, { ...errand, name }));
  for (const worker of workers) await worker.hear('ready');
  for (const worker of workers) worker.tell('go');
  for (const worker of workers) await worker.hear('went');
  for (const worker of workers.reverse()) expect(await worker.finish()).toEqual({ status: 0, errors: '' });

  const answers = workers.flatMap(({ said }) => said.filter((line) => line.said === 'answered'));
  expect(answers.length).toBe(2 * TIMES);
  for (const { key, answer } of answers) {
    expect(answer).toEqual({ settled: 1, refused: 0, waiting: 0 });
    takeIn(word, [
      { said: 'asking', asked: { ...settle, key } satisfies Asked },
      { said: 'answered', key, answer },
    ]);
  }
  await withRecord(place, async (tools) => {
    expect(await brokenWords(tools, word)).toEqual([]);
    const counts = await tools.store.forAudit(
      (tx) => tx.$queryRaw`
        SELECT (SELECT count(*)::int FROM settlement) AS settlements,
          (SELECT count(*)::int FROM journal_entry WHERE kind = 'settlement') AS entries,
          (SELECT count(*)::int FROM request WHERE verb = 'settle') AS requests`,
    );
    expect(counts).toEqual([{ settlements: 1, entries: 1, requests: withKey ? 1 : 2 * TIMES }]);
  });
});
