/**
 * Two parties with two agreements and their quotes, so that workers do not all wait for one lock.
 */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { recordAgreement } from '../../../src/usecases/agreements/record-agreement.ts';
import type { Tools } from '../../../src/usecases/context.ts';
import { recordQuotes } from '../../../src/usecases/prices/record-quotes.ts';
import { newParty } from '../test-record.ts';
import type { Season } from './said.ts';

const FOLDER = 'demo/quillback-tarn-hollow';

export async function newSeason(tools: Tools): Promise<Season> {
  const [seller, buyer] = [await newParty(tools, 'Seller'), await newParty(tools, 'Buyer')];
  const document = JSON.parse(await readFile(join(FOLDER, 'agreement.json'), 'utf8')) as object;
  const quotes = await quotesOf(join(FOLDER, 'prices.csv'));
  const agreementIds: string[] = [];
  for (const id of ['A-1', 'A-2']) {
    const asSeller = { ...tools, caller: seller };
    const parties = { sellerId: seller.partyId, buyerId: buyer.partyId };
    const { agreementId } = await recordAgreement(asSeller, {
      document: { ...document, id },
      ...parties,
      key: `${id}-agreement`,
    });
    await recordQuotes(asSeller, { agreementId, quotes, key: `${id}-quotes` });
    agreementIds.push(agreementId);
  }
  return { seller: { ...seller, role: 'owner' }, buyer: { ...buyer, role: 'owner' }, agreementIds };
}

async function quotesOf(path: string): Promise<{ series: string; date: string; price: string }[]> {
  const [, ...lines] = (await readFile(path, 'utf8')).trim().split('\n');
  return lines.map((line) => {
    const [series = '', date = '', price = ''] = line.trim().split(',');
    return { series, date, price };
  });
}
