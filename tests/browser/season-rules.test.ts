/**
 * What an agreement says of volume and of the season's average, put on notes in two browsers before the season is closed: 60 of
 * 100 short tons came, 10 % may be missing, and each ton beyond that costs the grower 12.00; the loads settled by the quotes of
 * their days, 4.20 and 4.40, and are priced again by the mean, 4.30.
 */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Context } from '../../src/usecases/context.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { issueInvoices } from '../../src/usecases/money/issue-invoices.ts';
import { recordQuotes } from '../../src/usecases/prices/record-quotes.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import type { Browsing } from './browsers.ts';
import { firstOwner, inRecord, inviteOthers, PARTIES, partnerOwner } from './season-record.ts';
import { openTwoSides, type TwoSides } from './two-sides.ts';

let agreementId: string;
let sides: TwoSides<string>;
let seller: Browsing;
let buyer: Browsing;

/** By the bushel of 100 lb, whatever its water. */
const TERMS = {
  format: 'huskledger-agreement/1',
  id: 'A-26-031',
  seller: PARTIES.grower,
  buyer: PARTIES.dairy,
  feed: 'whole-ear-corn',
  currency: 'USD',
  timeZone: 'America/Boise',
  references: {
    corn: {
      ...{ series: 'elevator', unit: 'bushel', poundsPerUnit: '100' },
      ...{ dryMatterPercent: '100', starchPercentOfDryMatter: '71' },
      rule: { kind: 'delivery-day' },
    },
  },
  price: [
    {
      ...{ term: 'equivalent-bushels', label: 'Corn', at: { reference: 'corn' } },
      method: { kind: 'shrink', percentPerPoint: '0' },
    },
  ],
  conditions: {
    volume: {
      ...{ amount: '100', unit: 'short-ton', weight: 'as-fed', tolerancePercent: '10' },
      shortfall: { owedBy: 'seller', from: 'range', rate: '12.00' },
    },
    trueUp: { prices: { from: '2026-11-01', to: '2026-11-20' } },
  },
};

async function fillSeason(dataFolder: string): Promise<string> {
  return await inRecord(dataFolder, async (record) => {
    const grower = await firstOwner(record);
    const dairy = await partnerOwner(record, grower, 'dairy');
    await inviteOthers(record, grower, 'grower');
    await inviteOthers(record, dairy, 'dairy');
    const context: Context = { ...record, caller: grower };
    const { agreementId } = await recordAgreement(context, {
      document: TERMS,
      sellerId: grower.partyId,
      buyerId: dairy.partyId,
    });
    const quote = (date: string, price: string) => ({ series: 'elevator', date, price });
    const quotes = [quote('2026-11-03', '4.20'), quote('2026-11-12', '4.40'), quote('2026-11-21', '4.35')];
    await recordQuotes(context, { agreementId, quotes, confirmed: true });
    const load = (ticket: string, day: string, gross: string) => ({
      ...{ ticket, sample: 'S1', delivered_at: `${day}T10:00:00-07:00` },
      ...{ gross, tare: '30000', unit: 'lb' },
    });
    const loads = [load('T1', '2026-11-03', '70000'), load('T2', '2026-11-12', '110000')];
    await recordLoads(context, { agreementId, loads, confirmed: true });
    const results = [{ sample: 'S1', basis: 'dry-matter', dry_matter: '60' }];
    await recordResults(context, { agreementId, results, confirmed: true });
    await settleLoads(context, { agreementId });
    await issueInvoices(context, { agreementId, includeOpenPeriods: true });
    return agreementId;
  });
}

beforeAll(async () => {
  sides = await openTwoSides(fillSeason, { seller: 'owner', buyer: 'owner' });
  ({ seller, buyer, filled: agreementId } = sides);
}, 240_000);
afterAll(() => sides.close());

const main = async (page: Page): Promise<string> => (await page.locator('main').textContent()) ?? '';

test('both read what the rules come to, and the side that issues puts it on notes', async () => {
  const at = `/agreements/${agreementId}/season-close`;
  // 30 of 90 tons are missing: 360.00. 400 bushels at 4.20 and 800 at 4.40 are 5,200.00, and 1,200 at 4.30 are 5,160.00.
  const said = [
    'Quillback Acres owes Tarn Hollow Dairy 360.00 USD',
    'Quillback Acres owes Tarn Hollow Dairy 40.00 USD',
  ];
  await buyer.page.goto(at);
  for (const sentence of said) expect(await main(buyer.page)).toContain(sentence);
  expect(await main(buyer.page)).toContain('By your agreement Quillback Acres issues the notes.');
  const { page } = seller;
  await page.goto(at);
  for (const sentence of said) expect(await main(page)).toContain(sentence);
  expect(await main(page)).toContain('Quillback Acres owes 400.00 USD by the agreed rules for the season');
  await page.getByRole('button', { name: 'Issue the notes, 2' }).click();
  await page.waitForSelector('.refused');
  expect(await page.locator('.refused').textContent()).toContain('Say that no more loads come');
  await page.check('[name="loads.over"]');
  await page.getByRole('button', { name: 'Issue the notes, 2' }).click();
  await page.waitForSelector('[role=status].told');
  expect(await main(page)).not.toContain('by the agreed rules for the season');
  await page.getByRole('link', { name: 'Credit note 3' }).first().click();
  await page.waitForURL('**/money/documents/**');
  expect(await main(page)).toContain('By the season’s average');
  await buyer.page.goto(at);
  expect(await main(buyer.page)).toContain('Tarn Hollow Dairy owes 4,800.00 USD');
  expect([...seller.complaints, ...buyer.complaints]).toEqual([]);
});
