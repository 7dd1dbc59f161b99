/**
 * Differences that both sides leave standing: noted by one, agreed to by the other, named on the closing statement, and no money
 * moved by them.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { figuresFor } from '../../src/documents/figures.ts';
import { differenceSentences } from '../../src/documents/season-close/closing-facts.ts';
import { closingStatementShape } from '../../src/domain/season-close/closing-statement.ts';
import { readActions } from '../../src/usecases/notices/read-actions.ts';
import { answerSeasonNote } from '../../src/usecases/season-close/answer-season-note.ts';
import { proposeClose, signClose } from '../../src/usecases/season-close/close-season.ts';
import { noteDifference } from '../../src/usecases/season-close/put-season-note.ts';
import { readClose } from '../../src/usecases/season-close/read-close.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';
import { refused } from './refused.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());

async function season(): Promise<MoneyWorld & { readonly loadId: string }> {
  const world = await moneyWorld(record);
  const [loadId = ''] = await world.deliver({ T1: '10', T2: '12' }, '2026-11-20');
  await world.invoice();
  return { ...world, loadId };
}

const sign = { carriesOver: true, name: 'Wren Alder' };

describe('a difference', () => {
  test('is named on both statements once both agree, and moves no money', async () => {
    const { agreementId, seller, buyer, loadId } = await season();
    const before = (await readClose(seller, { agreementId })).statement;
    expect(before.differences).toBeUndefined();
    const put = { agreementId, loadId, amount: '80', reason: 'We have 20,800 lb on our own slip' };
    const { noteId } = await noteDifference(seller, put);
    const open = await readClose(buyer, { agreementId });
    expect(open.inTheWay.map(({ kind, count }) => [kind, count])).toEqual([['difference', 1]]);
    expect(await refused(proposeClose(seller, { agreementId, ...sign }))).toBe('not-ready');
    expect(
      (await readActions(buyer, { locale: 'en-US' })).map(({ kind, path }) => [kind, path]),
    ).toContainEqual(['season', `/agreements/${agreementId}/season-close`]);
    expect((await readActions(seller, { locale: 'en-US' })).map(({ kind }) => kind)).not.toContain('season');
    await answerSeasonNote(buyer, { noteId, answer: 'confirmed' });
    const { statement, inTheWay } = await readClose(buyer, { agreementId });
    expect(inTheWay).toEqual([]);
    expect(statement.differences).toEqual([
      { ticket: 'T1', by: expect.stringMatching(/^Quillback/), amount: '80.00', words: put.reason },
    ]);
    expect(statement.money).toEqual(before.money);
    expect(differenceSentences(statement, figuresFor('en-US'))).toEqual([
      expect.stringMatching(
        /^Load T1: by the books of Quillback Acres \d+, Tarn Hollow Dairy \d+ owes 80\.00 USD more than the record says\. “We have 20,800 lb on our own slip”$/,
      ),
    ]);
    const drawn = await proposeClose(seller, { agreementId, ...sign });
    await signClose(buyer, { ...drawn, name: 'Juniper Marsh' });
    const sealed = await readClose(buyer, { agreementId });
    expect(closingStatementShape.parse(sealed.statement).differences).toHaveLength(1);
    // The sealed season takes no further note, and no answer.
    expect(await refused(noteDifference(buyer, put))).toBe('season-closed');
    expect((await verifyRecord(record.tools, { agreementId })).faults).toEqual([]);
  });

  test('that is refused or taken back stands nowhere', async () => {
    const { agreementId, seller, buyer } = await season();
    const put = { agreementId, ticket: 'T2', amount: '-12.5', reason: 'Another tare' };
    const first = await noteDifference(buyer, put);
    await answerSeasonNote(seller, { ...first, answer: 'refused', reason: 'The tare is right' });
    const second = await noteDifference(buyer, { ...put, ticket: '' });
    await answerSeasonNote(buyer, { ...second, answer: 'withdrawn' });
    const { statement, differences, inTheWay } = await readClose(seller, { agreementId });
    expect(statement.differences).toBeUndefined();
    expect(inTheWay).toEqual([]);
    expect(
      differences.map(({ ticket, amount, standing, answerReason }) => [
        ticket,
        amount,
        standing,
        answerReason,
      ]),
    ).toEqual([
      ['T2', '-12.50', 'refused', 'The tare is right'],
      [null, '-12.50', 'withdrawn', null],
    ]);
  });

  test('of no money is a difference too; of what is no amount is refused', async () => {
    const { agreementId, seller, buyer } = await season();
    const other = await season();
    const put = { agreementId, amount: '0', reason: 'Our list has the day before' };
    const { noteId } = await noteDifference(seller, put);
    await answerSeasonNote(buyer, { noteId, answer: 'confirmed' });
    expect((await readClose(buyer, { agreementId })).statement.differences).toMatchObject([
      { ticket: null, amount: '0.00' },
    ]);
    expect(await refused(noteDifference(seller, { ...put, amount: '1.234' }))).toBe('bad-input');
    expect(await refused(noteDifference(seller, { ...put, amount: '' }))).toBe('bad-input');
    expect(await refused(noteDifference(seller, { ...put, reason: '' }))).toBe('bad-input');
    expect(await refused(noteDifference(seller, { ...put, ticket: 'T7' }))).toBe('bad-input');
    expect(await refused(noteDifference(seller, { ...put, loadId: other.loadId }))).toBe('not-found');
    expect(await refused(noteDifference(seller, { ...put, loadId: 'T1' }))).toBe('not-found');
    expect(await refused(noteDifference(other.seller, put))).toBe('not-found');
  });

  test('that both answer at once is answered once', async () => {
    const { agreementId, seller, buyer } = await season();
    const { noteId } = await noteDifference(seller, { agreementId, amount: '5', reason: 'x' });
    const tried = await Promise.allSettled([
      answerSeasonNote(buyer, { noteId, answer: 'confirmed' }),
      answerSeasonNote(seller, { noteId, answer: 'withdrawn' }),
      answerSeasonNote(buyer, { noteId, answer: 'refused', reason: 'y' }),
    ]);
    expect(tried.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    // Sent twice with one key, it is one.
    const key = 'difference-sent-twice';
    const same = { agreementId, amount: '6', reason: 'x', key };
    expect(await noteDifference(seller, same)).toEqual(await noteDifference(seller, same));
  });
});
