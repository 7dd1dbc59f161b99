/**
 * Three invoices between the grower and the dairy, for the pages of payments: 1,000.00 that is ten days late, and 1,200.00
 * and 1,100.00 of three days ago, which earn two percent when they are paid soon.
 */
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Context, Tools } from '../../src/usecases/context.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { issueInvoices } from '../../src/usecases/money/issue-invoices.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { type Owners, PARTIES } from './season-record.ts';

const DAY = 86_400_000;

/** At 100.00 a short ton as delivered. */
const DOCUMENT = {
  format: 'huskledger-agreement/1',
  id: 'Q-PAY',
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
      invoices: 'day',
      discount: { percent: '2', withinDays: '5' },
      returnedPaymentFee: '25',
    },
  },
} as const;

export async function fillPayments(tools: Tools, { grower, dairy }: Owners): Promise<void> {
  const start = tools.now();
  const ago = (days: number): Context => ({ ...tools, now: () => start - days * DAY, caller: grower });
  const { agreementId } = await recordAgreement(ago(25), {
    document: DOCUMENT,
    sellerId: grower.partyId,
    buyerId: dairy.partyId,
  });
  const deliver = async (ticket: string, tons: number, days: number) => {
    const gross = String(30_000 + tons * 2000);
    const delivered_at = `${new Date(start - days * DAY).toISOString().slice(0, 19)}Z`;
    const load = { ticket, delivered_at, gross, tare: '30000', unit: 'lb' };
    await recordLoads(ago(days), { agreementId, loads: [load], confirmed: true });
    await settleLoads(ago(days), { agreementId });
  };
  await deliver('T1', 10, 22);
  await issueInvoices(ago(20), { agreementId });
  await deliver('T2', 12, 6);
  await deliver('T3', 11, 5);
  await issueInvoices(ago(3), { agreementId });
}
