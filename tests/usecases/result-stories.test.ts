/**
 * What a page tells of a result beside its figures: who entered it, what each side says of it, and what whoever asks may
 * do; and which loads a sample stands for.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Caller, Context } from '../../src/usecases/context.ts';
import { letLaboratory } from '../../src/usecases/laboratories/let-laboratory.ts';
import { voidLoad } from '../../src/usecases/loads/correct-load.ts';
import { readLoad } from '../../src/usecases/loads/read-load.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { recordQuotes } from '../../src/usecases/prices/record-quotes.ts';
import { Refusal } from '../../src/usecases/refusal.ts';
import { confirmResult, contestResult } from '../../src/usecases/results/answer-result.ts';
import { readResultStories } from '../../src/usecases/results/read-result-stories.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { reportResults } from '../../src/usecases/results/report-results.ts';
import { readSampleLoads } from '../../src/usecases/samples/read-sample-loads.ts';
import { takeSample } from '../../src/usecases/samples/take-sample.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { workedExample } from '../oracle/worked-example.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';

let record: TestRecord;
let seller: Context;
let buyer: Context;
let laboratory: Context;
let stranger: Context;

beforeAll(async () => {
  record = await openTestRecord();
  const as = (caller: Caller): Context => ({ ...record.tools, caller });
  seller = as(await newParty(record.tools, 'Quillback Acres'));
  buyer = as(await newParty(record.tools, 'Tarn Hollow Dairy'));
  laboratory = as(await newParty(record.tools, 'Ridge Crossing Laboratory'));
  stranger = as(await newParty(record.tools, 'Sorrel Bend Dairy'));
});
afterAll(() => record.close());

const RESULT = { sample: 'S1', basis: 'dry-matter', dry_matter: '59.2', starch: '54', ndf: '31.34' };

let count = 0;
async function begun(plan: string, samples: readonly (string | undefined)[] = ['S1']): Promise<string> {
  const { agreementId } = await recordAgreement(seller, {
    document: { ...workedExample.agreement, id: `Y-${++count}`, sampling: { plan } },
    sellerId: seller.caller.partyId,
    buyerId: buyer.caller.partyId,
  });
  await recordQuotes(seller, {
    agreementId,
    quotes: [{ series: 'corn-elevator-bid', date: '2026-09-14', price: '4.20' }],
  });
  const loads = samples.map((sample, index) => ({
    ticket: `T${index + 1}`,
    delivered_at: `2026-09-14T2${index}:40:00-06:00`,
    gross: '78220',
    tare: '31100',
    unit: 'lb',
    ...(sample === undefined ? {} : { sample }),
  }));
  await recordLoads(seller, { agreementId, loads });
  return agreementId;
}

async function storyFor(who: Context, agreementId: string, sample = 'S1') {
  return (await readResultStories(who, { agreementId })).get(sample);
}

describe('a result', () => {
  test('names who entered it, and what may be done by whom', async () => {
    const agreementId = await begun('per-load');
    const [{ id } = { id: '' }] = await recordResults(buyer, {
      agreementId,
      results: [{ ...RESULT, laboratory: 'Ridge Crossing', dry_matter_method: 'oven', aflatoxin: '25' }],
    });
    const mine = await storyFor(buyer, agreementId);
    expect(mine).toMatchObject({
      enteredBy: { name: 'Tarn Hollow Dairy', isOurs: true, isLaboratory: false },
      dryMatterMethod: 'oven',
      answers: [],
      ...{ mayConfirm: false, mayContest: false, mayAttach: true, isSettled: false },
    });
    // 25 µg/kg against the 20 of toxins.ts.
    expect(mine?.breaches).toEqual([
      'aflatoxin 25 µg/kg as-fed is above 20, the FDA action level in corn for dairy cattle',
    ]);
    expect(mine?.cautions.join(' ')).toContain('0.5 µg/kg');
    expect(await storyFor(seller, agreementId)).toMatchObject({ mayConfirm: true, mayContest: true });
    const viewer: Context = { ...seller, caller: { ...seller.caller, role: 'viewer' } };
    expect(await storyFor(viewer, agreementId)).toMatchObject({
      ...{ mayConfirm: false, mayContest: false, mayAttach: false },
    });

    await contestResult(seller, { resultId: id, reason: 'too much toxin' });
    expect((await storyFor(buyer, agreementId))?.answers).toEqual([
      { name: 'Quillback Acres', isOurs: false, answer: 'contest', reason: 'too much toxin' },
    ]);
    expect((await storyFor(buyer, agreementId))?.unusable).toBe(
      'Quillback Acres contests the result of sample S1: too much toxin',
    );
    await confirmResult(seller, { resultId: id });
    expect(await storyFor(seller, agreementId)).toMatchObject({
      answers: [{ isOurs: true, answer: 'confirm' }],
      ...{ mayConfirm: false, mayContest: true, unusable: null },
    });
  });

  test('that a load has settled from is contested no more', async () => {
    const agreementId = await begun('per-load');
    await recordResults(buyer, { agreementId, results: [RESULT] });
    expect(await settleLoads(seller, { agreementId })).toMatchObject({ settled: 1 });
    expect(await storyFor(seller, agreementId)).toMatchObject({
      ...{ isSettled: true, mayConfirm: true, mayContest: false },
    });
  });

  test('of a laboratory names it, and both sides may answer', async () => {
    const agreementId = await begun('per-load');
    await letLaboratory(seller, { agreementId, partyId: laboratory.caller.partyId });
    await reportResults(laboratory, { agreementId, results: [RESULT] });
    for (const side of [seller, buyer]) {
      expect(await storyFor(side, agreementId)).toMatchObject({
        enteredBy: { name: 'Ridge Crossing Laboratory', isOurs: false, isLaboratory: true },
        ...{ mayConfirm: true, mayContest: true },
      });
    }
    const asked = readResultStories(stranger, { agreementId });
    await expect(asked).rejects.toThrow(Refusal);
    await expect(readResultStories(laboratory, { agreementId })).rejects.toThrow(Refusal);
  });
});

describe('the loads of a sample', () => {
  test('are those that name it, without void ones', async () => {
    const agreementId = await begun('composite', ['C1', undefined, undefined]);
    await takeSample(seller, {
      agreementId,
      taking: {
        sample: 'C1',
        taken_at: '2026-09-14T22:50:00-06:00',
        taken_by: 'Ida Thrush',
        how: 'scoops',
      },
      tickets: ['T2'],
    });
    const loads = await readSampleLoads(buyer, { agreementId });
    expect([...loads].map(([name, of]) => [name, of.map(({ ticket }) => ticket)])).toEqual([
      ['C1', ['T1', 'T2']],
    ]);
    const loadId = loads.get('C1')?.[0]?.id ?? '';
    await voidLoad(seller, { loadId, reason: 'Weighed twice', baseVersion: 1 });
    expect((await readSampleLoads(buyer, { agreementId })).get('C1')).toMatchObject([{ ticket: 'T2' }]);
    await expect(readSampleLoads(stranger, { agreementId })).rejects.toThrow(Refusal);
  });

  test('by the day are those of its day that name none', async () => {
    const agreementId = await begun('per-day', [undefined, 'X', undefined]);
    const loads = await readSampleLoads(seller, { agreementId });
    expect([...loads].map(([name, of]) => [name, of.map(({ ticket }) => ticket)])).toEqual([
      ['2026-09-14', ['T1', 'T3']],
      ['X', ['T2']],
    ]);
  });
});

test('the history of a load has what was said of its result', async () => {
  const agreementId = await begun('per-load');
  const [{ id } = { id: '' }] = await recordResults(buyer, { agreementId, results: [RESULT] });
  await confirmResult(seller, { resultId: id });
  const [load] = (await readSampleLoads(seller, { agreementId })).get('S1') ?? [];
  const { history } = await readLoad(seller, { loadId: load?.id ?? '', locale: 'en-US' });
  expect(history.map(({ kind }) => kind)).toEqual(['load', 'result', 'result-answer']);
});
