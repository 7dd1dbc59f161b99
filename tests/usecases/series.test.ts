/**
 * Price series: who enters quotes, contesting one, and what rests on each.
 */
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest';
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Context } from '../../src/usecases/context.ts';
import { answerCorrection } from '../../src/usecases/corrections/agree-correction.ts';
import { correctQuote } from '../../src/usecases/corrections/correct-recorded.ts';
import { previewImport } from '../../src/usecases/import/preview-import.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { contestQuote } from '../../src/usecases/prices/contest-quote.ts';
import { readSeries } from '../../src/usecases/prices/read-series.ts';
import { recordQuotes } from '../../src/usecases/prices/record-quotes.ts';
import { setSeriesTerms } from '../../src/usecases/prices/set-series-terms.ts';
import { Refusal } from '../../src/usecases/refusal.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { workedExample } from '../oracle/worked-example.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';

const SERIES = 'corn-elevator-bid';
let record: TestRecord;
let seller: Context;
let buyer: Context;
let agreementId: string;
let count = 0;

beforeAll(async () => {
  record = await openTestRecord();
  seller = { ...record.tools, caller: await newParty(record.tools, 'Quillback Acres') };
  buyer = { ...record.tools, caller: await newParty(record.tools, 'Tarn Hollow Dairy') };
});
afterAll(async () => {
  expect((await verifyRecord(record.tools)).faults).toEqual([]);
  await record.close();
});
beforeEach(async () => {
  const document = { ...workedExample.agreement, id: `P-${++count}` };
  const parties = { sellerId: seller.caller.partyId, buyerId: buyer.caller.partyId };
  ({ agreementId } = await recordAgreement(seller, { document, ...parties }));
});

async function refused(work: Promise<unknown>): Promise<string> {
  const error: unknown = await work.then(
    () => undefined,
    (thrown: unknown) => thrown,
  );
  if (error instanceof Refusal) return error.code;
  if (error) throw error;
  return 'done';
}

const quote = (date: string, price: string) => ({ series: SERIES, date, price });
const terms = (enteredBy: string, contestDays = '5') => ({
  agreementId,
  series: SERIES,
  source: 'Cash bid on the elevator’s public board, noon',
  enteredBy,
  contestDays,
});
const view = (context: Context) => readSeries(context, { agreementId, series: SERIES, locale: 'en-US' });

/** An agreement whose quotes the seller enters, by the buyer's leave; one load has settled from that of the 14th. */
async function settledUnderSeller(): Promise<void> {
  await setSeriesTerms(buyer, terms('seller'));
  await recordQuotes(seller, {
    agreementId,
    quotes: [quote('2026-09-14', '4.20'), quote('2026-09-16', '4.25')],
  });
  const load = {
    ticket: 'T1',
    delivered_at: '2026-09-14T21:40:00-06:00',
    gross: '78220',
    tare: '31100',
    unit: 'lb',
    sample: 'S1',
  };
  await recordLoads(seller, { agreementId, loads: [load] });
  const result = { sample: 'S1', basis: 'dry-matter', dry_matter: '59.2', starch: '54', ndf: '31.34' };
  await recordResults(buyer, { agreementId, results: [result] });
  await settleLoads(seller, { agreementId });
}

test('terms are set by whoever gives something away', async () => {
  expect(await refused(setSeriesTerms(seller, terms('seller')))).toBe('not-yours');
  expect(await refused(setSeriesTerms(seller, { ...terms('buyer'), contestDays: '-1', source: ' ' }))).toBe(
    'bad-input',
  );
  expect(await refused(setSeriesTerms(seller, { ...terms('buyer'), series: 'rye' }))).toBe('not-found');
  await setSeriesTerms(buyer, terms('seller'));
  expect(await view(buyer)).toMatchObject({
    enteredBy: 'seller',
    contestDays: 5,
    mayEnter: false,
    units: ['bushel'],
  });
  expect(await refused(setSeriesTerms(buyer, terms('both')))).toBe('not-yours');
  expect(await refused(setSeriesTerms(seller, terms('seller', '2')))).toBe('not-yours');
  await setSeriesTerms(seller, terms('both'));
  expect(await view(buyer)).toMatchObject({ enteredBy: 'both', mayEnter: true });
});

test('only the side that enters quotes does', async () => {
  await setSeriesTerms(buyer, terms('seller'));
  const quotes = [quote('2026-09-14', '4.20')];
  expect(await refused(recordQuotes(buyer, { agreementId, quotes }))).toBe('not-yours');
  await recordQuotes(seller, { agreementId, quotes });
  // What is there already is no entry.
  expect(await refused(recordQuotes(buyer, { agreementId, quotes }))).toBe('done');
  const [{ id = '' } = {}] = (await view(buyer)).quotes;
  const right = { agreementId, id, figures: { price: '4.30' }, reason: 'Misread' };
  expect(await refused(correctQuote(buyer, right))).toBe('not-yours');
  const preview = await previewImport(buyer, {
    agreementId,
    bytes: new TextEncoder().encode('day,bid\n2026-09-14,4.2\n2026-09-15,4.25\n'),
    match: {
      kind: 'quotes',
      columns: { series: { constant: SERIES }, date: { column: 0 }, price: { column: 1 } },
      dateOrder: 'year-first',
      decimalMark: '.',
      timeOffset: 'agreement',
    },
  });
  expect(preview.rows.map(({ standing }) => standing)).toEqual(['there', 'wrong']);
});

test('a quote is contested by the other side within the days, and settles anew when the first confirms', async () => {
  await settledUnderSeller();
  const [newest, used] = (await view(buyer)).quotes;
  expect(used).toMatchObject({ date: '2026-09-14', price: '4.20', usedBy: [{ ticket: 'T1' }] });
  // The quote that closed the load's date priced nothing.
  expect(newest).toMatchObject({ date: '2026-09-16', usedBy: [] });
  expect(used?.contestUntil).toBe('2026-11-30');
  const contest = { agreementId, quoteId: used?.id ?? '', price: '4.30', reason: 'The board said 4.30' };
  expect(await refused(contestQuote(seller, contest))).toBe('not-yours');
  expect(await refused(contestQuote(buyer, { ...contest, reason: '' }))).toBe('bad-input');
  expect(await refused(contestQuote(buyer, { ...contest, price: '4.20' }))).toBe('bad-input');
  expect(await refused(contestQuote(buyer, { ...contest, quoteId: agreementId }))).toBe('not-found');
  const late: Context = { ...buyer, now: () => buyer.now() + 6 * 86_400_000 };
  expect(await refused(contestQuote(late, contest))).toBe('correction-over');
  const { correctionId, loads } = await contestQuote(buyer, contest);
  expect(loads).toBe(1);
  expect(await refused(contestQuote(buyer, contest))).toBe('correction-open');
  expect((await view(seller)).quotes[1]?.proposed).toMatchObject({ price: '4.30', isYours: false });
  expect(await answerCorrection(seller, { correctionId, answer: 'confirmed' })).toEqual({ resettled: 1 });
  const [, after] = (await view(seller)).quotes;
  expect(after).toMatchObject({ price: '4.30', usedBy: [{ ticket: 'T1' }], proposed: undefined });
  expect(after?.versions.map(({ version, price, reason }) => [version, price, reason])).toEqual([
    [1, '4.20', null],
    [2, '4.30', 'The board said 4.30'],
  ]);
});

test('a quote that nothing has settled from can be contested, too', async () => {
  await settledUnderSeller();
  await recordQuotes(seller, { agreementId, quotes: [quote('2026-09-18', '4.25')] });
  const [{ id = '' } = {}] = (await view(buyer)).quotes;
  const contest = { agreementId, quoteId: id, price: '4.27', reason: 'Typed 25 for 27' };
  const { correctionId, loads } = await contestQuote(buyer, contest);
  expect(loads).toBe(0);
  expect(await answerCorrection(seller, { correctionId, answer: 'confirmed' })).toEqual({ resettled: 0 });
  expect((await view(buyer)).quotes[0]).toMatchObject({ price: '4.27' });
  expect(await refused(contestQuote(buyer, contest))).toBe('changed-meanwhile');
});

test('a series is read by both sides, with the days that have no quote', async () => {
  await recordQuotes(seller, {
    agreementId,
    quotes: ['03', '04', '08', '09'].map((day) => quote(`2026-09-${day}`, '4.20')),
  });
  const read = await view(buyer);
  expect(read.missing).toEqual(['2026-09-07']);
  expect(read.points[0]).toEqual({ date: '2026-09-03', price: '4.20' });
  expect(await refused(readSeries(buyer, { agreementId, series: 'rye', locale: 'en-US' }))).toBe('not-found');
  const stranger: Context = { ...buyer, caller: await newParty(record.tools, 'Sorrel Bend Dairy') };
  expect(await refused(view(stranger))).toBe('not-found');
});
