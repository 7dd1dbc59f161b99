/**
 * A question that is open when both sides seal the season: its money stays held, its time no longer passes, and what it comes to
 * is agreed on under the next agreement.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readFonts } from '../../src/files/read-fonts.ts';
import { releaseHold } from '../../src/usecases/money/hold-amount.ts';
import { readStatements } from '../../src/usecases/money/read-statement.ts';
import { readActions } from '../../src/usecases/notices/read-actions.ts';
import { proposeEnding } from '../../src/usecases/retests/agree-ending.ts';
import { askRetest } from '../../src/usecases/retests/ask-retest.ts';
import { passTime } from '../../src/usecases/retests/pass-time.ts';
import { printRetest } from '../../src/usecases/retests/print-retest.ts';
import { readRetest } from '../../src/usecases/retests/read-retest.ts';
import { readRetestList } from '../../src/usecases/retests/read-retest-list.ts';
import { answerSeasonNote } from '../../src/usecases/season-close/answer-season-note.ts';
import { bringForward } from '../../src/usecases/season-close/bring-forward.ts';
import { proposeClose, signClose } from '../../src/usecases/season-close/close-season.ts';
import { proposePastSeason } from '../../src/usecases/season-close/put-season-note.ts';
import { readClose } from '../../src/usecases/season-close/read-close.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { refused } from './refused.ts';
import { retestWorld } from './retest-world.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());

const RULES = {
  askWithinDays: '10',
  keptDays: '60',
  referee: 'Bell Reach Referees',
  testWithinDays: '14',
  fee: 'split',
  measures: { starch: { method: 'referee-stands', tolerance: '1.0' } },
};

test('it is carried over by both, and settled under the next agreement', async () => {
  const world = await retestWorld(record, { retest: RULES });
  const { agreementId, seller, buyer } = world;
  const { sampleId } = await world.deliver({ sample: 'S1', loads: { T1: '60', T2: '40' } });
  await world.invoice();
  // 54.0 for 52.0: 2.0 points on 50 short tons of dry matter are 100.00.
  const { retestIds } = await askRetest(buyer, {
    agreementId,
    about: 'starch',
    claims: { [sampleId]: '52.0' },
    reason: 'Our own test',
  });
  const [retestId = ''] = retestIds;
  const { points, inTheWay } = await readClose(buyer, { agreementId });
  expect(inTheWay).toEqual([]);
  expect(points.map(({ kind, count, amount }) => [kind, count, amount])).toEqual([
    ['question', 1, null],
    ['held', 2, '100.00'],
    ['balance', 1, '2700.00'],
  ]);
  const drawn = await proposeClose(seller, { agreementId, carriesOver: true, name: 'Wren Alder' });
  await signClose(buyer, { ...drawn, name: 'Juniper Marsh' });

  // Long after its time, nothing decides it and nothing fails.
  world.at('2026-11-20');
  const passed = await passTime({ ...record.tools, now: () => Date.parse('2026-11-20T18:00:00Z') });
  expect(passed).toEqual({ decided: 0, reminded: 0, failures: [] });
  const view = await readRetest(buyer, { retestId, locale: 'en-US' });
  expect(view).toMatchObject({ isSealed: true, outlook: [] });
  expect(view.record).toMatchObject({
    calls: undefined,
    obstacle: expect.stringContaining('Carried over when the season was sealed'),
    held: '100.00',
  });
  const { items, askable } = await readRetestList(seller, { locale: 'en-US' });
  expect(items).toMatchObject([
    { id: retestId, isOver: true, standing: expect.stringContaining('next agreement') },
  ]);
  expect(askable).toEqual([]);
  expect((await readActions(seller, { locale: 'en-US' })).map(({ kind }) => kind)).not.toContain('retest');
  const proposal = { retestId, ending: 'withdraw' as const, bearer: 'split' as const, reason: 'x' };
  expect(await refused(proposeEnding(buyer, proposal))).toBe('season-closed');
  expect((await printRetest(buyer, { retestId, fonts: await readFonts() })).bytes.length).toBeGreaterThan(
    1000,
  );

  // Both agree later that 53.0 counts: 50.00 less.
  const next = await retestWorld(record, {
    retest: RULES,
    parties: { seller: seller.caller, buyer: buyer.caller },
  });
  next.at('2026-11-21');
  const of = { agreementId: next.agreementId, ofAgreementId: agreementId };
  await bringForward(next.seller, of);
  const stands = async () => {
    const [statement] = await readStatements(next.buyer, { partnerId: seller.caller.partyId });
    if (!statement) throw new Error('no statement');
    return statement;
  };
  const before = await stands();
  expect(before.held.map(({ amount, document }) => [amount, document])).toEqual([
    ['-60.00', 'Debit note 2'],
    ['-40.00', 'Debit note 2'],
  ]);
  const { noteId } = await proposePastSeason(next.buyer, {
    ...of,
    amount: '-50',
    reason: 'Starch of S1 counts as 53.0',
  });
  await answerSeasonNote(next.seller, { noteId, answer: 'confirmed' });
  const client = await record.superuser();
  const { rows } = await client.query<{ id: string }>(
    'SELECT id FROM hold WHERE agreement_id = $1 ORDER BY id',
    [next.agreementId],
  );
  await client.end();
  for (const { id } of rows) await releaseHold(next.buyer, { holdId: id });
  const after = await stands();
  expect([after.closing, after.held, after.ageing.held]).toEqual(['-2650.00', [], '0.00']);
  expect((await verifyRecord(record.tools)).faults).toEqual([]);
});
