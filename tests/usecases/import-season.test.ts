/**
 * A season in the shared record comes to the same figures as its folder settled from files.
 */
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readLoadsByTicket } from '../../src/store/rows/load-rows.ts';
import { readSettlements } from '../../src/store/rows/settlement-rows.ts';
import type { Caller } from '../../src/usecases/context.ts';
import { recordChoices } from '../../src/usecases/loads/record-choices.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { folderOf, runCli } from '../cli/run-cli.ts';
import { generateSeason } from '../oracle/generate-season.ts';
import { seasonFiles } from '../oracle/write-folder.ts';
import { importTogether, newParty, openTestRecord, SERVER, type TestRecord } from '../store/test-record.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());

interface PrintedLoad {
  readonly ticket: string;
  readonly status: string;
  readonly reason?: string;
  readonly total?: string;
  readonly lines?: readonly object[];
  readonly references?: Readonly<Record<string, { readonly price: string; readonly quote: string }>>;
}

/** Imports a folder, twice, and compares every load with what `settle` prints for it. */
async function compareWithFiles(folder: string): Promise<number> {
  const { output } = await runCli('settle', folder, '--json');
  const printed = JSON.parse(output) as { loads: PrintedLoad[] };
  const { tools, store } = record;
  const seller = await newParty(tools, 'Seller');
  const buyer = await newParty(tools, 'Buyer');
  const imported = await importTogether(tools, { folder, seller, buyer });
  expect(imported.problems).toEqual([]);
  const again = await importTogether(tools, { folder, seller, buyer });
  expect(again.agreementId).toBe(imported.agreementId);
  expect(again.settled).toMatchObject({ settled: 0, refused: 0 });

  const agreementId = imported.agreementId ?? '';
  const tickets = printed.loads.map(({ ticket }) => ticket);
  // The record holds results to published toxin levels, which a season's files are not: there the buyer decides.
  const above = await aboveLevels(agreementId, buyer);
  const stopped = printed.loads.filter(({ ticket, status }) => above.has(ticket) && status === 'settled');
  const accepted = stopped.map(({ ticket }) => ({ ticket, choice: 'accept' }));
  const asBuyer = { ...tools, caller: buyer };
  const decided = await stillWaiting({ choices: accepted, agreementId, partyId: buyer.partyId });
  await recordChoices(asBuyer, { agreementId, choices: decided });
  await settleLoads(asBuyer, { agreementId });
  stops += decided.length;
  const recorded = await store.forParty(buyer.partyId, async (tx) => {
    const loads = await readLoadsByTicket(tx, agreementId, tickets);
    const ids = [...loads.values()].map(({ id }) => id);
    const settlements = new Map(
      (await readSettlements(tx, agreementId, ids)).map((row) => [row.loadId, row]),
    );
    return tickets.map((ticket) => settlements.get(loads.get(ticket)?.id ?? ''));
  });
  for (const [index, load] of printed.loads.entries()) {
    const row = recorded[index];
    const refusable = load.reason === 'refusal-contested' && above.has(load.ticket);
    expect(row?.status ?? 'waiting', load.ticket).toBe(refusable ? 'refused' : load.status);
    if (load.status !== 'settled') continue;
    expect(row?.total, load.ticket).toBe(load.total);
    expect(row?.lines, load.ticket).toEqual(load.lines);
    const prices = row?.prices.map(({ reference, price, quote }) => [reference, { price, quote }]);
    expect(Object.fromEntries(prices ?? []), load.ticket).toEqual(
      Object.fromEntries(
        Object.entries(load.references ?? {}).map(([name, { price, quote }]) => [name, { price, quote }]),
      ),
    );
  }
  return recorded.filter((row) => row?.status === 'settled').length;
}

/** How many loads a published level stopped. */
let stops = 0;

/** The tickets whose results are above the published levels: 20 µg/kg of aflatoxin, 10 mg/kg of vomitoxin (FDA). */
async function aboveLevels(agreementId: string, { partyId }: Caller): Promise<ReadonlySet<string>> {
  const rows = await record.store.forParty(partyId, (tx) =>
    tx.$queryRawUnsafe<{ ticket: string }[]>(
      `SELECT l.ticket FROM current_load l
       JOIN sample s ON s.agreement_id = l.agreement_id
         AND (s.id = l.sample_id OR (l.sample_id IS NULL AND s.name = l.delivered_on::text))
       JOIN result r ON r.agreement_id = s.agreement_id AND r.sample_id = s.id
       WHERE l.agreement_id = $1::uuid AND (r.aflatoxin > 20 OR r.vomitoxin > 10)`,
      agreementId,
    ),
  );
  return new Set(rows.map(({ ticket }) => ticket));
}

interface Chosen {
  readonly choices: readonly { readonly ticket: string; readonly choice: string }[];
  readonly agreementId: string;
  readonly partyId: string;
}

/** Choices about loads that wait: those that the buyer accepted in the files have settled. */
async function stillWaiting({ choices, agreementId, partyId }: Chosen) {
  return await record.store.forParty(partyId, async (tx) => {
    const loads = await readLoadsByTicket(
      tx,
      agreementId,
      choices.map(({ ticket }) => ticket),
    );
    const ids = [...loads.values()].map(({ id }) => id);
    const settled = new Set((await readSettlements(tx, agreementId, ids)).map(({ loadId }) => loadId));
    return choices.filter(({ ticket }) => !settled.has(loads.get(ticket)?.id ?? ''));
  });
}

test.each(['quillback-tarn-hollow', 'feldmark-metric', 'bushels-dry'])('demo/%s', async (name) => {
  expect(await compareWithFiles(join('demo', name))).toBeGreaterThan(20);
});

/** The embedded engine takes its time: a server is asked for all of them. */
const SEASONS = SERVER === undefined ? 6 : 20;

test(`${SEASONS} generated seasons, over all terms, rules, units and currencies`, async () => {
  let settled = 0;
  for (let seed = 1; seed <= SEASONS; seed++) {
    settled += await compareWithFiles(await folderOf(seasonFiles(generateSeason(seed))));
  }
  expect(settled).toBeGreaterThan(SEASONS * 7);
  expect(stops).toBeGreaterThan(0);
  expect((await verifyRecord(record.tools)).faults).toEqual([]);
});
