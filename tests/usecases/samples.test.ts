/**
 * Samples from the truck to the laboratory: taken, named on their loads, sealed and handed on; and what is still missing.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Caller, Context } from '../../src/usecases/context.ts';
import { voidLoad } from '../../src/usecases/loads/correct-load.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { recordQuotes } from '../../src/usecases/prices/record-quotes.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { handOver } from '../../src/usecases/samples/hand-over.ts';
import { readSamples } from '../../src/usecases/samples/read-samples.ts';
import { sealParts } from '../../src/usecases/samples/seal-parts.ts';
import { takeSample } from '../../src/usecases/samples/take-sample.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { workedExample } from '../oracle/worked-example.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { refused } from './refused.ts';

let record: TestRecord;
let seller: Context;
let buyer: Context;
let stranger: Context;

const RETEST = {
  askWithinDays: '7',
  keptDays: '30',
  parts: ['laboratory', 'seller', 'buyer', 'referee'],
  referee: 'Fennel Ridge Laboratory',
  fee: 'split',
  measures: { starch: { method: 'closest-two' } },
};
const TAKING = {
  sample: 'C1',
  taken_at: '2026-09-14T22:00:00-06:00',
  taken_by: 'Ida Thrush',
  how: 'five scoops from the unloading stream',
};
const PART = { sample: 'C1', part: 'laboratory', airtight: 'yes', kept_where: 'scale house' };

beforeAll(async () => {
  record = await openTestRecord();
  const as = (caller: Caller): Context => ({ ...record.tools, caller });
  seller = as(await newParty(record.tools, 'Quillback Acres'));
  buyer = as(await newParty(record.tools, 'Tarn Hollow Dairy'));
  stranger = as(await newParty(record.tools, 'Sorrel Bend Dairy'));
});
afterAll(async () => {
  expect((await verifyRecord(record.tools)).faults).toEqual([]);
  await record.close();
});

let count = 0;
/** An agreement with loads T1 to T3 that name no sample. */
async function begun(plan: string): Promise<string> {
  const document = { ...workedExample.agreement, id: `P-${++count}`, sampling: { plan }, retest: RETEST };
  const { agreementId } = await recordAgreement(seller, {
    document,
    sellerId: seller.caller.partyId,
    buyerId: buyer.caller.partyId,
  });
  const loads = ['T1', 'T2', 'T3'].map((ticket, index) => ({
    ticket,
    delivered_at: `2026-09-14T2${index}:40:00-06:00`,
    gross: '78220',
    tare: '31100',
    unit: 'lb',
  }));
  await recordLoads(seller, { agreementId, loads });
  return agreementId;
}

describe('taking', () => {
  test('a composite is named on the loads it stands for, and on no other', async () => {
    const agreementId = await begun('composite');
    const asked = { agreementId, taking: TAKING, tickets: ['T1', 'T2'] };
    expect(await takeSample(seller, asked)).toEqual({ named: 2 });
    expect(await takeSample(buyer, asked)).toEqual({ named: 0 });
    const view = await readSamples(buyer, { agreementId });
    expect(view.unsampled.map(({ ticket }) => ticket)).toEqual(['T3']);
    expect(view.samples).toMatchObject([{ sample: 'C1', loads: 2, taking: { takenBy: 'Ida Thrush' } }]);
    expect(view.awaited).toEqual(['C1']);
    expect(view.cautions.map(({ words }) => words).join(' ')).toMatch(
      /three times its height.*bucket.*Never go alone/,
    );

    const quotes = ['2026-09-14', '2026-09-20'].map((date) => ({
      series: 'corn-elevator-bid',
      date,
      price: '4.20',
    }));
    await recordQuotes(seller, { agreementId, quotes });
    const figures = { basis: 'dry-matter', dry_matter: '59.2', starch: '54', ndf: '31.34' };
    await recordResults(buyer, { agreementId, results: [{ sample: 'C1', ...figures }] });
    expect(await settleLoads(seller, { agreementId })).toEqual({ settled: 2, refused: 0, waiting: 1 });
    expect((await readSamples(buyer, { agreementId })).awaited).toEqual([]);
    const late = { ...TAKING, sample: 'C2' };
    expect(await refused(takeSample(seller, { agreementId, taking: late, tickets: ['T1'] }))).toBe(
      'bad-input',
    );
  });

  test('is refused where it cannot be', async () => {
    const agreementId = await begun('per-load');
    const take = (taking: Record<string, string>, tickets: string[], who = seller) =>
      refused(takeSample(who, { agreementId, taking: { ...TAKING, ...taking }, tickets }));
    expect(await take({}, ['T1', 'T2'])).toBe('bad-input');
    expect(await take({}, ['T9'])).toBe('not-found');
    expect(await take({ taken_by: '' }, [])).toBe('bad-input');
    expect(await take({ taken_at: '2026-09-14T22:00' }, [])).toBe('bad-input');
    expect(await take({}, ['T1'], stranger)).toBe('not-found');
    expect(await take({}, ['T1'])).toBe('done');
    expect(await take({}, ['T2'])).toBe('bad-input');
    expect(await take({ how: 'otherwise' }, [])).toBe('bad-input');
    expect(await take({ sample: 'C2' }, ['T1'])).toBe('bad-input');
    const { unsampled } = await readSamples(seller, { agreementId });
    const loadId = unsampled.find(({ ticket }) => ticket === 'T3')?.id ?? '';
    await voidLoad(seller, { loadId, reason: 'Weighed twice', baseVersion: 1 });
    expect(await take({ sample: 'C3' }, ['T3'])).toBe('bad-input');
    expect((await readSamples(seller, { agreementId })).unsampled.map(({ ticket }) => ticket)).toEqual([
      'T2',
    ]);
  });

  test('a load that settled without one stays as it is', async () => {
    const document = {
      ...workedExample.agreement,
      id: `P-${++count}`,
      price: [{ term: 'flat', label: 'By weight', rate: '40', per: 'short-ton', weight: 'as-fed' }],
      acceptance: [],
    };
    const parties = { sellerId: seller.caller.partyId, buyerId: buyer.caller.partyId };
    const { agreementId } = await recordAgreement(seller, { document, ...parties });
    const load = {
      ticket: 'T1',
      delivered_at: '2026-09-14T21:40:00-06:00',
      gross: '78220',
      tare: '31100',
      unit: 'lb',
    };
    await recordLoads(seller, { agreementId, loads: [load] });
    await settleLoads(seller, { agreementId });
    expect(await refused(takeSample(seller, { agreementId, taking: TAKING, tickets: ['T1'] }))).toBe(
      'already-settled',
    );
  });

  test('by the day, a load needs no name where its day has a sample', async () => {
    const agreementId = await begun('per-day');
    expect((await readSamples(seller, { agreementId })).unsampled).toHaveLength(3);
    await takeSample(seller, { agreementId, taking: { ...TAKING, sample: '2026-09-14' }, tickets: [] });
    expect((await readSamples(seller, { agreementId })).unsampled).toEqual([]);
  });
});

describe('parts', () => {
  test('are sealed once, handed on, and named where they go before the time to ask ends', async () => {
    const agreementId = await begun('composite');
    await takeSample(seller, { agreementId, taking: TAKING, tickets: ['T1', 'T2', 'T3'] });
    const parts = [
      { ...PART, seal: 'A-1' },
      { ...PART, part: 'buyer', seal: 'A-2', kept_until: '2026-12-01' },
      { ...PART, part: 'referee', seal: 'A-3', kept_until: '2026-12-02' },
    ];
    const sealed = await sealParts(seller, { agreementId, parts });
    expect(sealed.map(({ isNew }) => isNew)).toEqual([true, true, true]);
    expect((await sealParts(buyer, { agreementId, parts })).map(({ id }) => id)).toEqual(
      sealed.map(({ id }) => id),
    );
    const seal = (part: Record<string, string>) =>
      refused(sealParts(seller, { agreementId, parts: [{ ...PART, ...part }] }));
    expect(await seal({ seal: 'A-1', part: 'seller' })).toBe('bad-input');
    expect(await seal({ seal: 'A-4', sample: 'C9' })).toBe('not-found');
    expect(await seal({ seal: 'A-4', airtight: 'perhaps' })).toBe('bad-input');
    expect(await refused(sealParts(stranger, { agreementId, parts }))).toBe('not-found');

    const figures = { basis: 'dry-matter', dry_matter: '59.2', starch: '54', ndf: '31.34' };
    await recordResults(buyer, { agreementId, results: [{ sample: 'C1', ...figures }] });
    // Entered on 2026-11-25: it may be questioned until 2026-12-02.
    const first = await readSamples(buyer, { agreementId });
    expect(first.goneTooSoon).toEqual(['A-2']);
    expect(first.samples[0]?.parts[1]).toMatchObject({
      holder: 'buyer',
      goneBefore: '2026-12-02',
      isSealIntact: true,
    });

    const partId = sealed[1]?.id ?? '';
    const handover = {
      handed_at: '2026-11-26T10:00:00-07:00',
      to_whom: 'Fennel Ridge Laboratory',
      kept_where: 'cold room',
      kept_until: '2027-01-31',
      seal_intact: 'no',
    };
    expect(await refused(handOver(stranger, { partId, handover }))).toBe('not-found');
    expect(await refused(handOver(buyer, { partId, handover: { ...handover, seal_intact: '' } }))).toBe(
      'bad-input',
    );
    await handOver(buyer, { partId, handover });
    await handOver(buyer, { partId, handover: { ...handover, to_whom: 'Ida Thrush', seal_intact: 'yes' } });
    const second = await readSamples(buyer, { agreementId });
    expect(second.goneTooSoon).toEqual([]);
    expect(second.samples[0]?.parts[1]).toMatchObject({
      holder: 'Ida Thrush',
      keptWhere: 'cold room',
      isSealIntact: false,
      handovers: [{ toWhom: 'Fennel Ridge Laboratory' }, { toWhom: 'Ida Thrush' }],
    });
    expect(await refused(readSamples(stranger, { agreementId }))).toBe('not-found');
  });
});
