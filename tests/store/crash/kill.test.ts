/**
 * `kill -9` at moments that chance chooses, under load: what was answered is there afterwards, nothing is half there,
 * and the record opens by itself. `HUSKLEDGER_TEST_KILLS` says how many kills; `HUSKLEDGER_TEST_SEED` repeats a run, as
 * far as the machine keeps the same time.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { chanceFrom } from '../../oracle/random.ts';
import { bundleWorker, type Program } from './bundle-worker.ts';
import { runRounds } from './kill-rounds.ts';
import { openPlaces, type Places } from './record-place.ts';

const KILLS = Number(process.env['HUSKLEDGER_TEST_KILLS'] ?? 5);
const SEED = Number(process.env['HUSKLEDGER_TEST_SEED'] ?? Date.now() % 1_000_000_000);

let program: Program;
let places: Places;
beforeAll(async () => {
  [program, places] = await Promise.all([bundleWorker(), openPlaces()]);
}, 120_000);
afterAll(async () => {
  await Promise.all([program.remove(), places.close()]);
});

test(
  `${KILLS} kills`,
  async () => {
    console.log(`HUSKLEDGER_TEST_SEED=${SEED}`);
    const run = { program: program.path, places, chance: chanceFrom(SEED), kills: KILLS };
    const tally = await runRounds(run);
    console.log(`${places.server ? 'PostgreSQL server' : 'data folder'}: ${JSON.stringify(tally)}`);
    expect(tally.kills).toBeGreaterThanOrEqual(KILLS);
    // Without work under way a kill proves nothing.
    expect(tally.answered).toBeGreaterThan(KILLS);
  },
  60_000 + KILLS * 30_000,
);
