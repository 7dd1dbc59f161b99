/**
 * A record of its own for the tests of questions: 1.00 USD for each point of starch and short ton of dry matter, so that 50 of
 * dry matter at 54.0 % come to 2,700.00. Two samples stand for two loads each, all sealed in four parts and invoiced; the
 * first invoice is paid. A practice advises the dairy on it.
 */
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Context } from '../../src/usecases/context.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { issueInvoices } from '../../src/usecases/money/issue-invoices.ts';
import { recordPayment } from '../../src/usecases/money/record-payment.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { sealParts } from '../../src/usecases/samples/seal-parts.ts';
import { takeSample } from '../../src/usecases/samples/take-sample.ts';
import { recordScale } from '../../src/usecases/scales/keep-scale.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { joinWithNewParty } from '../../src/usecases/sharing/join-with-new-party.ts';
import { ADVISER } from './market-record.ts';
import { firstOwner, inRecord, inviteOthers, PARTIES, partnerOwner } from './season-record.ts';

const DAY = 86_400_000;

export const RETEST_TERMS = {
  format: 'huskledger-agreement/1',
  id: 'Q-TEST',
  seller: PARTIES.grower,
  buyer: PARTIES.dairy,
  feed: 'whole-ear-corn',
  currency: 'USD',
  timeZone: 'America/Boise',
  references: {},
  price: [
    {
      term: 'schedule',
      label: 'Starch',
      on: 'starch',
      neutral: { from: '0', to: '0' },
      above: [{ perPoint: '1' }],
      count: 'exact',
      unit: 'money',
      per: 'short-ton',
      weight: 'dry-matter',
    },
  ],
  sampling: { plan: 'composite' },
  retest: {
    askWithinDays: '14',
    keptDays: '60',
    parts: ['laboratory', 'seller', 'buyer', 'referee'],
    referee: 'Bell Reach Referees',
    testWithinDays: '10',
    fee: 'asker-unless-moved',
    measures: {
      starch: { method: 'referee-stands', tolerance: '1.0' },
      weight: { method: 'second-scale' },
    },
  },
};

export interface RetestRecordIds {
  readonly agreementId: string;
  /** By ticket. */
  readonly loads: Readonly<Record<string, string>>;
  /** The agreement of the next season, where one was asked for. */
  readonly nextId: string;
}

/** Fills a new data folder; with an agreement for the next season of the same two, where a test goes on to that. */
export async function fillRetestRecord(
  dataFolder: string,
  { hasNext = false }: { readonly hasNext?: boolean } = {},
): Promise<RetestRecordIds> {
  return await inRecord(dataFolder, async (record) => {
    const grower = await firstOwner(record);
    const dairy = await partnerOwner(record, grower, 'dairy');
    await inviteOthers(record, grower, 'grower');
    await inviteOthers(record, dairy, 'dairy');
    const seller: Context = { ...record, caller: grower };
    const { agreementId } = await recordAgreement(seller, {
      document: RETEST_TERMS,
      sellerId: grower.partyId,
      buyerId: dairy.partyId,
    });
    await recordScale(
      { ...record, caller: dairy },
      {
        scale: {
          ...{ name: 'Mill Lane scale', place: 'Mill Lane', unit: 'lb', capacity: '200000', division: '20' },
          ...{ accuracy_class: 'III L', legal_for_trade: 'yes', tested_on: '2026-06-01' },
        },
      },
    );
    const at = record.now() - 2 * DAY;
    const loads = {
      ...(await deliver(seller, { agreementId, sample: 'S1', loads: { T1: '60', T2: '40' }, at })),
    };
    await issueInvoices(seller, { agreementId, includeOpenPeriods: true });
    await recordPayment(seller, {
      agreementId,
      direction: 'received',
      payment: { amount: '2700', paid_on: dayOf(record.now() - DAY / 2), method: 'check', reference: '17' },
      confirmed: true,
    });
    Object.assign(
      loads,
      await deliver(seller, { agreementId, sample: 'S2', loads: { T3: '60', T4: '40' }, at }),
    );
    await issueInvoices(seller, { agreementId, includeOpenPeriods: true });
    const { secret } = await askAdviser({ ...record, caller: dairy }, { agreementId });
    await joinWithNewParty(record, { ...ADVISER, secret, address: '127.0.0.1' });
    const next = hasNext
      ? await recordAgreement(seller, {
          document: { ...RETEST_TERMS, id: 'Q-NEXT' },
          sellerId: grower.partyId,
          buyerId: dairy.partyId,
        })
      : undefined;
    return { agreementId, loads, nextId: next?.agreementId ?? '' };
  });
}

function dayOf(moment: number): string {
  return new Date(moment).toISOString().slice(0, 10);
}

interface Delivered {
  readonly agreementId: string;
  readonly sample: string;
  readonly loads: Readonly<Record<string, string>>;
  readonly at: number;
}

/** Loads of so many short tons with one sample, tested and settled; returns their ids by ticket. */
async function deliver(seller: Context, { agreementId, sample, loads, at }: Delivered) {
  const when = new Date(at).toISOString();
  const recorded = await recordLoads(seller, {
    agreementId,
    confirmed: true,
    loads: Object.entries(loads).map(([ticket, tons]) => ({
      ticket,
      sample,
      delivered_at: when,
      gross: String(30000 + Number(tons) * 2000),
      tare: '30000',
      unit: 'lb',
    })),
  });
  await takeSample(seller, {
    agreementId,
    taking: {
      sample,
      taken_at: when,
      taken_by: 'Wren Alder',
      how: 'five scoops from the unloading stream, mixed',
    },
    tickets: [],
  });
  await sealParts(seller, {
    agreementId,
    parts: ['laboratory', 'seller', 'buyer', 'referee'].map((part, index) => ({
      sample,
      part,
      seal: `H-${sample}-${index + 1}`,
      airtight: 'yes',
      kept_where: 'freezer in the scale house',
      kept_until: dayOf(at + 60 * DAY),
    })),
  });
  await recordResults(seller, {
    agreementId,
    confirmed: true,
    results: [
      {
        ...{ sample, basis: 'dry-matter', dry_matter: '50', starch: '54.0', ndf: '31' },
        ...{ laboratory: 'Alder Bench', method: 'enzymatic' },
      },
    ],
  });
  await settleLoads(seller, { agreementId });
  return Object.fromEntries(recorded.map(({ id }, index) => [Object.keys(loads)[index] ?? '', id]));
}
