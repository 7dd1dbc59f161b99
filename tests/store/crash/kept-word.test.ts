/**
 * The check of these tests sees what it is there to see: a request that is lost, one that nobody asked, and rows that
 * are half there.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Transaction } from '../../../src/store/open-store.ts';
import { type OpenRecord, openRecord } from '../../../src/usecases/open-record.ts';
import { ask } from './ask.ts';
import { brokenWords, newWord, takeIn, type Word } from './kept-word.ts';
import { openPlaces, type Places } from './record-place.ts';
import { truckloads } from './truckloads.ts';

let places: Places;
let record: OpenRecord;
let word: Word;
beforeAll(async () => {
  places = await openPlaces();
  const { place, season } = await places.newPlace();
  record = await openRecord(place, '.');
  word = newWord();
  // A load that is recorded, tested and settled.
  const work = truckloads({ name: 'one', seed: 1, agreementId: season.agreementIds[0] ?? '', most: 1 });
  let next = work.next();
  for (let step = 0; step < 3; step++) {
    const asked = next.value;
    const answer = await ask(record, season, asked);
    takeIn(word, [
      { said: 'asking', asked },
      { said: 'answered', key: asked.key, answer },
    ]);
    next = work.next(answer);
  }
}, 120_000);
afterAll(async () => {
  await record.close();
  await places.close();
});

/** Looks at the record as `spoil` leaves it, and takes that back. */
async function brokenAfter(spoil: (tx: Transaction) => Promise<unknown>): Promise<string[]> {
  let broken: string[] | undefined;
  const undone = new Error('taken back');
  await record.store
    .forAudit(async (tx) => {
      // Lets its owner past the tables' guards.
      await tx.$executeRaw`SET LOCAL session_replication_role = replica`;
      await spoil(tx);
      const store = {
        ...record.store,
        forAudit: <Answer>(read: (tx: Transaction) => Promise<Answer>) => read(tx),
      };
      broken = await brokenWords({ ...record, store }, word);
      throw undone;
    })
    .catch((error: unknown) => {
      if (error !== undone) throw error;
    });
  if (!broken) throw new Error('Nobody looked at the record');
  return broken;
}

test('a record that keeps its word has nothing broken', async () => {
  expect(await brokenAfter(async () => {})).toEqual([]);
});

test.each([
  [
    'a lost request',
    'DELETE FROM request WHERE verb = $$record-load$$',
    /one-1-loads was answered .* nothing/,
  ],
  ['a lost load', 'DELETE FROM load', /one-1-loads: row 1 is not there/],
  ['a lost result', 'DELETE FROM result', /one-1-results: row 1 is not there/],
  ['a lost settlement', 'DELETE FROM settlement', /one-1-settle: its loads have 0 settlements/],
  ['a settlement without lines', 'DELETE FROM settlement_line', /1 settlements without a line/],
  ['a load without entry', 'DELETE FROM journal_entry WHERE kind = $$load$$', /has no entry of its own/],
  ['a balance that is off', 'UPDATE account_balance SET balance = balance + 1', /its postings sum to/],
  ['a lost audit', 'DELETE FROM audit WHERE verb = $$settle$$', /1 requests without their audit/],
])('%s is seen', async (_, sql, told) => {
  const broken = await brokenAfter((tx) => tx.$executeRawUnsafe(sql));
  expect(broken.join('\n')).toMatch(told);
});

test('a request that nobody asked is seen', async () => {
  word.asked.delete('one-1-loads');
  expect(await brokenAfter(async () => {})).toContain('one-1-loads is there; nobody asked it');
});
