/**
 * Putting right what was recorded: directly while nothing has settled from it, by both sides afterwards. What stood
 * before stays to be read, the books balance, and every settlement can still be worked out from what it rested on.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readAgreementList } from '../../src/usecases/agreements/read-agreement-list.ts';
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Caller, Context } from '../../src/usecases/context.ts';
import { answerCorrection, proposeCorrection } from '../../src/usecases/corrections/agree-correction.ts';
import { correctQuote, correctResult } from '../../src/usecases/corrections/correct-recorded.ts';
import { correctLoad, voidLoad } from '../../src/usecases/loads/correct-load.ts';
import { readLoadList } from '../../src/usecases/loads/read-load-list.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { recordQuotes } from '../../src/usecases/prices/record-quotes.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { workedExample } from '../oracle/worked-example.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { refused } from './refused.ts';

let record: TestRecord;
let seller: Context;
let buyer: Context;
let agreementId: string;

const LOAD = {
  ticket: 'T1',
  delivered_at: '2026-09-14T21:40:00-06:00',
  gross: '78220',
  tare: '31100',
  unit: 'lb',
  sample: 'S1',
};
const RESULT = { basis: 'dry-matter', dry_matter: '59.2', starch: '54', ndf: '31.34' };

beforeAll(async () => {
  record = await openTestRecord();
  const as = (caller: Caller): Context => ({ ...record.tools, caller });
  seller = as(await newParty(record.tools, 'Quillback Acres'));
  buyer = as(await newParty(record.tools, 'Tarn Hollow Dairy'));
});
afterAll(async () => {
  expect((await verifyRecord(record.tools)).faults).toEqual([]);
  await record.close();
});

/** A new agreement with two quotes, a load T1 and its result: 1,986.85 by the worked example of the format. */
let count = 0;
async function begun(settled: boolean): Promise<string> {
  const document = { ...workedExample.agreement, id: `C-${++count}` };
  ({ agreementId } = await recordAgreement(seller, {
    document,
    sellerId: seller.caller.partyId,
    buyerId: buyer.caller.partyId,
  }));
  const series = 'corn-elevator-bid';
  await recordQuotes(seller, {
    agreementId,
    quotes: [
      { series, date: '2026-09-14', price: '4.20' },
      { series, date: '2026-09-20', price: '4.20' },
    ],
  });
  const [load] = await recordLoads(seller, { agreementId, loads: [LOAD] });
  await recordResults(buyer, { agreementId, results: [{ sample: 'S1', ...RESULT }] });
  if (settled) await settleLoads(seller, { agreementId });
  return load?.id ?? '';
}

async function totals(): Promise<Record<string, string>> {
  const { loads } = await readLoadList(seller, { agreementId, status: 'all', locale: 'en-US' });
  return Object.fromEntries(
    loads.map(({ ticket, standing }) => [
      ticket,
      'total' in standing ? `${standing.status} ${standing.total}` : standing.status,
    ]),
  );
}

async function owed(): Promise<string | undefined> {
  return (await readAgreementList(buyer, { locale: 'en-US' })).find(({ id }) => id === agreementId)?.owed;
}

async function idOf(table: 'result' | 'quote', date = '2026-09-14'): Promise<string> {
  const client = await record.superuser();
  const where = table === 'quote' ? `AND quoted_on = '${date}'` : '';
  const { rows } = await client.query<{ id: string }>(
    `SELECT id FROM ${table} WHERE agreement_id = $1 ${where} ORDER BY version DESC LIMIT 1`,
    [agreementId],
  );
  await client.end();
  return rows[0]?.id ?? '';
}

/** The agreement of one test; the whole record is looked at in the end. */
const clean = async () => expect((await verifyRecord(record.tools, { agreementId })).faults).toEqual([]);

describe('before settlement', () => {
  test('a ticket is put right by a new version with a reason', async () => {
    const loadId = await begun(false);
    const right = { ...LOAD, gross: '78320' };
    const correction = { loadId, load: right, reason: 'Read the gross wrong', baseVersion: 1 };
    expect(await refused(correctLoad(seller, { ...correction, reason: ' ' }))).toBe('bad-input');
    expect(await correctLoad(seller, correction)).toEqual({ version: 2 });
    expect(await refused(correctLoad(buyer, correction))).toBe('changed-meanwhile');
    // The same figures again are no new version.
    expect(await correctLoad(buyer, { ...correction, baseVersion: 2 })).toEqual({ version: 2 });
    await settleLoads(seller, { agreementId });
    // 47,220 lb in place of 47,120: 2.12 parts in a thousand more of each line.
    expect(await totals()).toEqual({ T1: 'settled 1,991.07' });
    expect(await refused(correctLoad(seller, { ...correction, load: LOAD, baseVersion: 2 }))).toBe(
      'already-settled',
    );
    await clean();
  });

  test('a ticket that had a wrong number gives it free, and one that is void does not', async () => {
    const loadId = await begun(false);
    await correctLoad(seller, {
      loadId,
      load: { ...LOAD, ticket: 'T7' },
      reason: 'Typed T1 for T7',
      baseVersion: 1,
    });
    const [other] = await recordLoads(seller, { agreementId, loads: [{ ...LOAD, gross: '70000' }] });
    expect(other).toMatchObject({ ticket: 'T1', isNew: true });
    await voidLoad(seller, { loadId: other?.id ?? '', reason: 'Weighed twice', baseVersion: 1 });
    expect(await refused(recordLoads(seller, { agreementId, loads: [{ ...LOAD, gross: '60000' }] }))).toBe(
      'ticket-taken',
    );
    const taking = { loadId, load: LOAD, reason: 'Once more', baseVersion: 2 };
    expect(await refused(correctLoad(seller, taking))).toBe('ticket-taken');
    expect(await settleLoads(seller, { agreementId })).toEqual({ settled: 1, refused: 0, waiting: 0 });
    await clean();
  });

  test('a result by the side that entered it, a quote by either', async () => {
    await begun(false);
    const result = {
      agreementId,
      id: await idOf('result'),
      figures: { ...RESULT, starch: '56' },
      reason: 'Read 54 for 56',
    };
    expect(await refused(correctResult(seller, result))).toBe('not-yours');
    await correctResult(buyer, result);
    expect(await refused(correctResult(buyer, result))).toBe('changed-meanwhile');
    await correctQuote(seller, {
      agreementId,
      id: await idOf('quote'),
      figures: { price: '4.30' },
      reason: 'Misread',
    });
    await settleLoads(seller, { agreementId });
    expect(Object.values(await totals())[0]).not.toBe('settled 1,986.85');
    await clean();
  });
});

describe('after settlement', () => {
  test('one side proposes, the other confirms, and the books follow', async () => {
    const loadId = await begun(true);
    const right = { ...LOAD, gross: '78320' };
    const proposal = {
      agreementId,
      subject: 'load',
      subjectId: loadId,
      figures: right,
      reason: 'Scale misread',
    } as const;
    expect(await owed()).toBe('1,986.85');
    expect(await refused(proposeCorrection(seller, { ...proposal, figures: LOAD }))).toBe('bad-input');
    const { correctionId, loads } = await proposeCorrection(seller, proposal);
    expect(loads).toBe(1);
    // Nothing has changed yet.
    expect(await owed()).toBe('1,986.85');
    expect(await refused(proposeCorrection(buyer, proposal))).toBe('correction-open');
    expect(await refused(answerCorrection(seller, { correctionId, answer: 'confirmed' }))).toBe('not-yours');
    expect(await refused(answerCorrection(buyer, { correctionId, answer: 'withdrawn' }))).toBe('not-yours');
    expect(await refused(answerCorrection(buyer, { correctionId, answer: 'refused' }))).toBe('bad-input');
    expect(await answerCorrection(buyer, { correctionId, answer: 'confirmed' })).toEqual({ resettled: 1 });
    expect(await refused(answerCorrection(buyer, { correctionId, answer: 'confirmed' }))).toBe(
      'correction-over',
    );
    expect(await totals()).toEqual({ T1: 'settled 1,991.07' });
    expect(await owed()).toBe('1,991.07');
    await clean();
  });

  test('a quote that was wrong lists its loads, and they settle anew only when both agree', async () => {
    await begun(true);
    await recordLoads(seller, {
      agreementId,
      loads: [
        { ...LOAD, ticket: 'T2' },
        { ...LOAD, ticket: 'T3', delivered_at: '2026-09-20T12:00:00-06:00' },
      ],
    });
    await settleLoads(seller, { agreementId });
    const id = await idOf('quote');
    const quote = {
      agreementId,
      id,
      figures: { price: '4.30' },
      reason: 'The elevator published a correction',
    };
    expect(await refused(correctQuote(buyer, quote))).toBe('already-settled');
    const proposed = await proposeCorrection(buyer, { ...quote, subject: 'quote', subjectId: id });
    expect(proposed.loads).toBe(2);
    const before = await totals();
    await answerCorrection(seller, {
      correctionId: proposed.correctionId,
      answer: 'refused',
      reason: 'It was right',
    });
    expect(await totals()).toEqual(before);
    const again = await proposeCorrection(buyer, { ...quote, subject: 'quote', subjectId: id });
    expect(await answerCorrection(seller, { correctionId: again.correctionId, answer: 'confirmed' })).toEqual(
      { resettled: 2 },
    );
    const after = await totals();
    expect(after['T3']).toBe('settled 1,986.85');
    expect(after['T1']).toBe(after['T2']);
    expect(after['T1']).not.toBe('settled 1,986.85');
    await clean();
  });

  test('a result moves exactly the loads of its sample', async () => {
    await begun(true);
    await recordLoads(seller, {
      agreementId,
      loads: [
        { ...LOAD, ticket: 'T2' },
        { ...LOAD, ticket: 'T3', sample: 'S3' },
      ],
    });
    await recordResults(buyer, { agreementId, results: [{ sample: 'S3', ...RESULT }] });
    await settleLoads(seller, { agreementId });
    const subjectId = await idOf('result');
    const client = await record.superuser();
    const { rows } = await client.query<{ id: string }>(
      `SELECT r.id FROM result r JOIN sample s ON s.id = r.sample_id WHERE r.agreement_id = $1 AND s.name = 'S1'`,
      [agreementId],
    );
    await client.end();
    expect(subjectId).not.toBe('');
    const { correctionId, loads } = await proposeCorrection(buyer, {
      agreementId,
      subject: 'result',
      subjectId: rows[0]?.id ?? '',
      figures: { ...RESULT, starch: '52' },
      reason: 'The laboratory corrected its report',
    });
    expect(loads).toBe(2);
    expect(await answerCorrection(seller, { correctionId, answer: 'confirmed' })).toEqual({ resettled: 2 });
    expect((await totals())['T3']).toBe('settled 1,986.85');
    await clean();
  });

  test('what would leave a load waiting is refused when it is proposed', async () => {
    await begun(true);
    const figures = { basis: 'dry-matter', dry_matter: '40', starch: '54', ndf: '31.34' };
    const subjectId = await idOf('result');
    const proposal = {
      agreementId,
      subject: 'result',
      subjectId,
      figures,
      reason: 'Wetter than read',
    } as const;
    expect(await refused(proposeCorrection(buyer, proposal))).toBe('not-ready');
    await clean();
  });
});
