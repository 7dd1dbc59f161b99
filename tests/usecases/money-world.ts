/**
 * A small world of money for tests: one agreement at 100.00 a short ton as delivered, so that a load of 20,000 lb settles to
 * 1,000.00, with whatever terms of payment a test asks for.
 */
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Caller, Context } from '../../src/usecases/context.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { issueInvoices } from '../../src/usecases/money/issue-invoices.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { newParty, type TestRecord } from '../store/test-record.ts';

export interface MoneyWorld {
  readonly agreementId: string;
  readonly seller: Context;
  readonly buyer: Context;
  /** Sets the clock that both sides' requests read: noon UTC of a day. */
  readonly on: (day: string) => void;
  /** Delivers loads of so many short tons on a day and settles them; returns their ids. */
  readonly deliver: (loads: Readonly<Record<string, string>>, day: string) => Promise<readonly string[]>;
  readonly invoice: () => ReturnType<typeof issueInvoices>;
}

let count = 0;

export interface WorldTerms {
  readonly conditions?: object;
  /** Of the agreement file, over what stands here. */
  readonly terms?: object;
  readonly parties?: { readonly seller: Caller; readonly buyer: Caller };
}

export async function moneyWorld(
  { tools }: TestRecord,
  { conditions, terms = {}, parties }: WorldTerms = {},
): Promise<MoneyWorld> {
  let now = Date.parse('2026-11-25T12:00:00Z');
  const as = (caller: Caller): Context => ({ ...tools, now: () => now++, caller });
  const number = ++count;
  const seller = as(parties?.seller ?? (await newParty(tools, `Quillback Acres ${number}`)));
  const buyer = as(parties?.buyer ?? (await newParty(tools, `Tarn Hollow Dairy ${number}`)));
  const document = {
    format: 'huskledger-agreement/1',
    id: `M-${number}`,
    seller: 'Quillback Acres',
    buyer: 'Tarn Hollow Dairy',
    feed: 'whole-ear-corn',
    currency: 'USD',
    timeZone: 'America/Boise',
    references: {},
    price: [{ term: 'flat', label: 'Feed', rate: '100', per: 'short-ton', weight: 'as-fed' }],
    ...(conditions === undefined ? {} : { conditions }),
    ...terms,
  };
  const { agreementId } = await recordAgreement(seller, {
    document,
    sellerId: seller.caller.partyId,
    buyerId: buyer.caller.partyId,
  });
  return {
    agreementId,
    seller,
    buyer,
    on: (day) => {
      now = Date.parse(`${day}T18:00:00Z`);
    },
    deliver: async (loads, day) => {
      const rows = Object.entries(loads).map(([ticket, tons]) => ({
        ticket,
        delivered_at: `${day}T09:00:00-06:00`,
        gross: String(30000 + Number(tons) * 2000),
        tare: '30000',
        unit: 'lb',
      }));
      const recorded = await recordLoads(seller, { agreementId, loads: rows, confirmed: true });
      await settleLoads(seller, { agreementId });
      return recorded.map(({ id }) => id);
    },
    invoice: () => issueInvoices(seller, { agreementId, includeOpenPeriods: true }),
  };
}
