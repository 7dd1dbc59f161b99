/**
 * A small world of questions for tests: one agreement at 1.00 a short ton and point of starch on dry matter, so that 50 short
 * tons of dry matter at 54.0 % starch come to 2,700.00, each sample sealed in four parts.
 */
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Caller, Context } from '../../src/usecases/context.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { issueInvoices } from '../../src/usecases/money/issue-invoices.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { reportFigure } from '../../src/usecases/retests/report-figure.ts';
import { sealParts } from '../../src/usecases/samples/seal-parts.ts';
import { takeSample } from '../../src/usecases/samples/take-sample.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { newParty, type TestRecord } from '../store/test-record.ts';

export const PNG = new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3]);

export interface RetestWorld {
  readonly agreementId: string;
  readonly seller: Context;
  readonly buyer: Context;
  /** Sets the clock: an ISO 8601 moment, or noon in Boise of a day. */
  readonly at: (moment: string) => void;
  /** Loads that share one sample, tested on the day and settled; returns the loads' ids and the parts by whose they are. */
  readonly deliver: (of: {
    readonly sample: string;
    readonly loads: Readonly<Record<string, string>>;
    readonly result?: Readonly<Record<string, string>>;
    readonly isSealed?: boolean;
    readonly scale?: string;
  }) => Promise<{
    readonly loadIds: readonly string[];
    readonly sampleId: string;
    readonly parts: Readonly<Record<string, string>>;
  }>;
  readonly invoice: () => ReturnType<typeof issueInvoices>;
  readonly report: (
    as: Context,
    of: { readonly retestId: string; readonly figure: Readonly<Record<string, string>> },
  ) => ReturnType<typeof reportFigure>;
}

let count = 0;

export interface WorldTerms {
  readonly retest: object;
  readonly terms?: object;
  readonly parties?: { readonly seller: Caller; readonly buyer: Caller };
}

export async function retestWorld(
  record: TestRecord,
  { retest, terms = {}, parties }: WorldTerms,
): Promise<RetestWorld> {
  let now = Date.parse('2026-10-01T18:00:00Z');
  const { tools } = record;
  const as = (caller: Caller): Context => ({ ...tools, now: () => now++, caller });
  const number = ++count;
  const seller = as(parties?.seller ?? (await newParty(tools, `Quillback Acres ${number}`)));
  const buyer = as(parties?.buyer ?? (await newParty(tools, `Tarn Hollow Dairy ${number}`)));
  const document = {
    format: 'huskledger-agreement/1',
    id: `R-${number}`,
    seller: 'Quillback Acres',
    buyer: 'Tarn Hollow Dairy',
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
    retest,
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
    at: (moment) => {
      now = Date.parse(moment.length > 10 ? moment : `${moment}T18:00:00Z`);
    },
    deliver: async ({ sample, loads, result = {}, isSealed = true, scale }) => {
      const day = new Date(now).toISOString().slice(0, 10);
      const recorded = await recordLoads(seller, {
        agreementId,
        confirmed: true,
        loads: Object.entries(loads).map(([ticket, tons]) => ({
          ticket,
          sample,
          delivered_at: `${day}T06:00:00-06:00`,
          gross: String(30000 + Number(tons) * 2000),
          tare: '30000',
          unit: 'lb',
          ...(scale === undefined ? {} : { gross_scale: scale, tare_scale: scale }),
        })),
      });
      await takeSample(seller, {
        agreementId,
        taking: {
          sample,
          taken_at: `${day}T12:00:00Z`,
          taken_by: 'Wren',
          how: 'five scoops from the stream',
        },
        tickets: [],
      });
      const wanted = ['laboratory', 'seller', 'buyer', 'referee'];
      const parts = isSealed
        ? await sealParts(seller, {
            agreementId,
            parts: wanted.map((part) => ({
              sample,
              part,
              seal: `${number}-${sample}-${part}`,
              airtight: 'yes',
              kept_where: 'freezer',
              kept_until: '2027-02-01',
            })),
          })
        : [];
      await recordResults(seller, {
        agreementId,
        confirmed: true,
        results: [
          {
            sample,
            basis: 'dry-matter',
            dry_matter: '50',
            starch: '54.0',
            laboratory: 'Alder Bench',
            ...result,
          },
        ],
      });
      await settleLoads(seller, { agreementId });
      const client = await record.superuser();
      const { rows } = await client.query<{ id: string }>(
        'SELECT id FROM sample WHERE agreement_id = $1 AND name = $2',
        [agreementId, sample],
      );
      await client.end();
      return {
        loadIds: recorded.map(({ id }) => id),
        sampleId: rows[0]?.id ?? '',
        parts: Object.fromEntries(parts.map(({ id }, index) => [wanted[index] ?? '', id])),
      };
    },
    invoice: () => issueInvoices(seller, { agreementId, includeOpenPeriods: true }),
    report: (context, { retestId, figure }) =>
      reportFigure(context, {
        retestId,
        figure: {
          tested_on: new Date(now - 7 * 3_600_000).toISOString().slice(0, 10),
          charge: '45',
          paid_by: 'buyer',
          tested_by: 'Bell Reach Referees',
          ...figure,
        },
        report: { name: 'report.png', bytes: PNG },
      }),
  };
}
