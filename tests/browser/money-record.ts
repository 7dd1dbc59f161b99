/**
 * A record of its own for the tests of money: the grower and the dairy agree on 100.00 USD a short ton as delivered, so that a
 * load of 20,000 lb settles to 1,000.00; two loads came in a week that is over, one today. A practice advises the dairy on it.
 */
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Context } from '../../src/usecases/context.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { joinWithNewParty } from '../../src/usecases/sharing/join-with-new-party.ts';
import { ADVISER } from './market-record.ts';
import { firstOwner, inRecord, inviteOthers, PARTIES, partnerOwner } from './season-record.ts';

const DAY = 86_400_000;

export const MONEY_TERMS = {
  format: 'huskledger-agreement/1',
  id: 'M-TEST',
  seller: PARTIES.grower,
  buyer: PARTIES.dairy,
  feed: 'whole-ear-corn',
  currency: 'USD',
  timeZone: 'America/Boise',
  references: {},
  price: [{ term: 'flat', label: 'Feed', rate: '100', per: 'short-ton', weight: 'as-fed' }],
  conditions: {
    payment: {
      netDays: '10',
      from: 'invoice',
      invoices: 'week',
      interest: { percentPerYear: '12', dayCount: 'actual/365' },
    },
  },
};

/** Fills a new data folder; returns the agreement's id. */
export async function fillMoneyRecord(dataFolder: string): Promise<string> {
  return await inRecord(dataFolder, async (record) => {
    const grower = await firstOwner(record);
    const dairy = await partnerOwner(record, grower, 'dairy');
    await inviteOthers(record, grower, 'grower');
    await inviteOthers(record, dairy, 'dairy');
    const seller: Context = { ...record, caller: grower };
    const { agreementId } = await recordAgreement(seller, {
      document: MONEY_TERMS,
      sellerId: grower.partyId,
      buyerId: dairy.partyId,
    });
    const [earlier, today] = [record.now() - 14 * DAY, record.now() - DAY / 24];
    await deliver(seller, { agreementId, loads: { T1: '10', T2: '12' }, at: earlier });
    await deliver(seller, { agreementId, loads: { T3: '11' }, at: today });
    const { secret } = await askAdviser({ ...record, caller: dairy }, { agreementId });
    await joinWithNewParty(record, { ...ADVISER, secret, address: '127.0.0.1' });
    return agreementId;
  });
}

/** Loads of so many short tons, delivered and settled. */
export async function deliver(
  seller: Context,
  of: {
    readonly agreementId: string;
    readonly loads: Readonly<Record<string, string>>;
    readonly at: number;
  },
): Promise<void> {
  const { agreementId } = of;
  const rows = Object.entries(of.loads).map(([ticket, tons]) => ({
    ticket,
    delivered_at: new Date(of.at).toISOString(),
    gross: String(30000 + Number(tons) * 2000),
    tare: '30000',
    unit: 'lb',
  }));
  await recordLoads(seller, { agreementId, loads: rows, confirmed: true });
  await settleLoads(seller, { agreementId });
}
