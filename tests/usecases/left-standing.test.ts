/**
 * Rows of an own list that both sides leave standing: settled while the difference is the one that they agreed on, and open again
 * once either list says something else.
 */
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest';
import { answerSeasonNote } from '../../src/usecases/season-close/answer-season-note.ts';
import { keepOwnList } from '../../src/usecases/season-close/keep-own-list.ts';
import { matchOwnList } from '../../src/usecases/season-close/open-own-list.ts';
import { noteDifference } from '../../src/usecases/season-close/put-season-note.ts';
import { readMatching } from '../../src/usecases/season-close/read-matching.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';

let record: TestRecord;
let world: MoneyWorld;
let loadIds: readonly string[];
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());
beforeEach(async () => {
  world = await moneyWorld(record);
  loadIds = await world.deliver({ T1: '10', T2: '12', T3: '11' }, '2026-11-20');
});

async function bring(text: string) {
  const { agreementId, buyer } = world;
  const file = { agreementId, bytes: new TextEncoder().encode(`Ticket,Date,Net,Amount\n${text}`) };
  const { proposal } = await matchOwnList(buyer, { ...file, kind: 'own-loads' });
  const columns = { ...proposal.columns, unit: { constant: 'lb' } };
  const match = {
    ...proposal,
    kind: 'own-loads',
    columns,
    dateOrder: 'year-first',
    timeOffset: 'agreement',
    decimalMark: '.',
  };
  await keepOwnList(buyer, { ...file, fileName: 'x.csv', match });
}

async function matching() {
  const found = await readMatching(world.buyer, { agreementId: world.agreementId });
  if (!found) throw new Error('no list was brought');
  return found;
}

const AGREES = 'T1,2026-11-20,20000,1000.00\nT3,2026-11-20,22000,1100.00\n';

test('a row is settled once both agree on its difference, and only for that one', async () => {
  const { agreementId, buyer, seller } = world;
  await bring(`${AGREES}T2,2026-11-20,24000,1188.00\n`);
  const [differs] = (await matching()).open;
  const put = { agreementId, loadId: loadIds[1] ?? '', reason: 'Our price was 99.00' };
  // A note of another amount, or of the other side's books, settles nothing.
  const other = await noteDifference(buyer, { ...put, amount: '-11' });
  await answerSeasonNote(seller, { ...other, answer: 'confirmed' });
  const theirs = await noteDifference(seller, { ...put, amount: '-12' });
  await answerSeasonNote(buyer, { ...theirs, answer: 'confirmed' });
  expect(await matching()).toMatchObject({ open: [differs], left: [], put: new Set() });
  const { noteId } = await noteDifference(buyer, { ...put, amount: '-12' });
  expect(await matching()).toMatchObject({ open: [differs], left: [], put: new Set([differs?.fingerprint]) });
  await answerSeasonNote(seller, { noteId, answer: 'confirmed' });
  expect(await matching()).toMatchObject({
    open: [],
    left: [differs],
    put: new Set(),
    counts: { agrees: 2, 'amount-differs': 0 },
  });
  await bring(`${AGREES}T2,2026-11-20,24000,1190.00\n`);
  expect(await matching()).toMatchObject({
    open: [{ kind: 'pair' }],
    left: [],
    counts: { 'amount-differs': 1 },
  });
});

test('a load that the list lacks counts in full, and one that the record lacks is in no load’s note', async () => {
  const { agreementId, buyer, seller } = world;
  await bring(`${AGREES}T8,2026-11-23,14000,700.00\n`);
  expect((await matching()).open).toHaveLength(2);
  const { noteId } = await noteDifference(buyer, {
    agreementId,
    loadId: loadIds[1] ?? '',
    amount: '-1200',
    reason: 'We never saw this truck',
  });
  await answerSeasonNote(seller, { noteId, answer: 'confirmed' });
  expect(await matching()).toMatchObject({
    open: [{ kind: 'only', in: 'mine', row: { ticket: 'T8' } }],
    left: [{ kind: 'only', in: 'record', row: { ticket: 'T2' } }],
  });
});

test('a note that was refused or taken back settles nothing', async () => {
  const { agreementId, buyer, seller } = world;
  await bring(`${AGREES}T2,2026-11-20,24000,1188.00\n`);
  const put = { agreementId, loadId: loadIds[1] ?? '', amount: '-12', reason: 'Our price was 99.00' };
  const first = await noteDifference(buyer, put);
  await answerSeasonNote(seller, { ...first, answer: 'refused', reason: 'It was 100.00' });
  const second = await noteDifference(buyer, put);
  await answerSeasonNote(buyer, { ...second, answer: 'withdrawn' });
  expect(await matching()).toMatchObject({ open: [{ kind: 'pair' }], left: [], put: new Set() });
});
