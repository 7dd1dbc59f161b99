/**
 * How far an agreement has come, read whole: by the figures of loads that were recorded, by hand-worked sums.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readProgress } from '../../src/usecases/agreements/read-progress.ts';
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Context } from '../../src/usecases/context.ts';
import { voidLoad } from '../../src/usecases/loads/correct-load.ts';
import { recordChoices } from '../../src/usecases/loads/record-choices.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { recordQuotes } from '../../src/usecases/prices/record-quotes.ts';
import { Refusal } from '../../src/usecases/refusal.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { workedExample } from '../oracle/worked-example.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';

let record: TestRecord;
let seller: Context;
let buyer: Context;
let agreementId: string;

beforeAll(async () => {
  record = await openTestRecord();
  seller = { ...record.tools, caller: await newParty(record.tools, 'Quillback Acres') };
  buyer = { ...record.tools, caller: await newParty(record.tools, 'Tarn Hollow Dairy') };
  const document = {
    ...workedExample.agreement,
    acceptance: [{ on: 'moisture', below: '20', above: '50' }],
    conditions: { volume: { amount: '100', unit: 'short-ton', weight: 'as-fed', tolerancePercent: '10' } },
  };
  const parties = { sellerId: seller.caller.partyId, buyerId: buyer.caller.partyId };
  ({ agreementId } = await recordAgreement(seller, { document, ...parties }));
  const series = 'corn-elevator-bid';
  await recordQuotes(seller, {
    agreementId,
    quotes: [
      { series, date: '2026-09-14', price: '4.20' },
      { series, date: '2026-09-15', price: '4.20' },
    ],
  });
  const load = (ticket: string, at: string, gross: string, sample?: string) => ({
    ticket,
    delivered_at: `${at}-06:00`,
    gross,
    tare: '30000',
    unit: 'lb',
    ...(sample === undefined ? {} : { sample }),
  });
  const recorded = await recordLoads(seller, {
    agreementId,
    loads: [
      load('T1', '2026-09-14T21:10:00', '70000', 'A'),
      load('T2', '2026-09-14T22:10:00', '50000', 'B'),
      // One composite of two loads.
      load('T3', '2026-09-14T22:40:00', '60000', 'C'),
      load('T4', '2026-09-15T08:10:00', '70000', 'C'),
      load('T5', '2026-09-15T09:10:00', '80000'),
      load('T6', '2026-09-15T10:10:00', '64000', 'W'),
      load('T7', '2026-09-15T11:10:00', '64000', 'A'),
    ],
  });
  const result = (sample: string, dry_matter: string, starch: string) => ({
    sample,
    basis: 'dry-matter',
    dry_matter,
    starch,
    ndf: '20',
  });
  await recordResults(buyer, {
    agreementId,
    results: [
      result('A', '72', '70'),
      result('B', '65', '74'),
      result('C', '60', '60'),
      result('W', '45', '50'),
    ],
    confirmed: true,
  });
  await recordChoices(buyer, { agreementId, choices: [{ ticket: 'T6', choice: 'refuse' }] });
  const void7 = recorded.find(({ ticket }) => ticket === 'T7')?.id ?? '';
  await voidLoad(seller, { loadId: void7, reason: 'Weighed twice', baseVersion: 1 });
  await settleLoads(seller, { agreementId });
});
afterAll(() => record.close());

const read = (context: Context) => readProgress(context, { agreementId, locale: 'en-US' });

test('tons against what was committed: void tickets and refused loads count for nothing', async () => {
  const progress = await read(seller);
  // 40,000 + 20,000 + 30,000 + 40,000 + 50,000 lb; dry 28,800 + 13,000 + 18,000 + 24,000 lb.
  expect(progress.delivered).toMatchObject({
    loads: 5,
    wetTons: '90.00',
    dryTons: '41.90',
    untestedLoads: 1,
    untestedTons: '25.00',
    unsettledLoads: 1,
  });
  expect(progress.refused).toBe(1);
  expect(progress.committed).toMatchObject({
    delivered: '90.00',
    least: '90.00',
    most: '110.00',
    standing: 'within',
    remaining: '10.00',
    isBeyond: false,
    percent: '90.0',
  });
});

test('means by dry matter, a composite for exactly the loads that it covers', async () => {
  const { tests } = await read(buyer);
  const starch = tests.find(({ name }) => name === 'starch');
  // (28,800 × 70 + 13,000 × 74 + 42,000 × 60) ÷ 83,800 = 5,498,000 ÷ 83,800 = 65.6085…; the plain mean of the four
  // loads is 66.
  expect(starch).toMatchObject({
    mean: '65.61',
    weightedBy: 'dry-matter',
    loads: 4,
    results: 3,
    least: '60.00',
    median: '70.00',
    greatest: '74.00',
  });
  const dryMatter = tests.find(({ name }) => name === 'dry matter');
  // 83,800 ÷ 130,000 lb.
  expect(dryMatter).toMatchObject({ mean: '64.46', weightedBy: 'as-fed' });
});

test('days with their trucks an hour and their strip', async () => {
  const { days, delivered } = await read(seller);
  expect(
    days.map(({ date, loads, perHour, busiest, wetTons }) => [date, loads, perHour, busiest, wetTons]),
  ).toEqual([
    ['2026-09-14', 3, '1.5', { hour: '22', loads: 2 }, '45.00'],
    ['2026-09-15', 2, '1.0', { hour: '08', loads: 1 }, '45.00'],
  ]);
  // The 14th: 59,800 lb dry of 90,000; starch 20,160 + 9,620 + 10,800 = 40,580 lb, NDF 11,960.
  expect(days[0]?.strip).toMatchObject({
    length: 1,
    water: { percent: '33.6' },
    starch: { percent: '45.1' },
    fibre: { percent: '13.3' },
    restPercent: '8.1',
  });
  expect(days[1]?.strip).toMatchObject({ weight: '20.00 short tons' });
  const cents = (text: string) => BigInt(text.replace(/[^\d-]/g, ''));
  expect(days.reduce((sum, { value }) => sum + cents(value), 0n)).toBe(cents(delivered.value));
  expect(cents(delivered.value)).toBeGreaterThan(0n);
});

test('is read by whoever may read the agreement', async () => {
  const stranger: Context = { ...buyer, caller: await newParty(record.tools, 'Sorrel Bend Dairy') };
  await expect(read(stranger)).rejects.toThrow(Refusal);
});
