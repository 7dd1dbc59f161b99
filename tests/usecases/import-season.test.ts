/**
 * A season in the shared record comes to the same figures as its folder settled from files.
 */
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readLoadsByTicket } from '../../src/store/rows/load-rows.ts';
import { readSettlements } from '../../src/store/rows/settlement-rows.ts';
import { importSeason } from '../../src/usecases/season/import-season.ts';
import { runCli } from '../cli/run-cli.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());

interface PrintedLoad {
  readonly ticket: string;
  readonly status: string;
  readonly total?: string;
  readonly lines?: readonly object[];
}

test.each(['quillback-tarn-hollow', 'feldmark-metric', 'bushels-dry'])('demo/%s', async (name) => {
  const folder = join('demo', name);
  const printed = JSON.parse((await runCli('settle', folder, '--json')).output) as { loads: PrintedLoad[] };
  const { tools, store } = record;
  const seller = await newParty(tools, 'Seller');
  const buyer = await newParty(tools, 'Buyer');
  const imported = await importSeason(tools, { folder, seller, buyer });
  expect(imported.problems).toEqual([]);
  const again = await importSeason(tools, { folder, seller, buyer });
  expect(again.agreementId).toBe(imported.agreementId);
  expect(again.settled).toMatchObject({ settled: 0, refused: 0 });

  const agreementId = imported.agreementId ?? '';
  const recorded = await store.forParty(buyer.partyId, async (tx) => {
    const loads = await readLoadsByTicket(
      tx,
      agreementId,
      printed.loads.map(({ ticket }) => ticket),
    );
    const ids = [...loads.values()].map(({ id }) => id);
    const settlements = new Map(
      (await readSettlements(tx, agreementId, ids)).map((row) => [row.loadId, row]),
    );
    return printed.loads.map(({ ticket }) => settlements.get(loads.get(ticket)?.id ?? ''));
  });
  for (const [index, load] of printed.loads.entries()) {
    const row = recorded[index];
    expect(row?.status ?? 'waiting', load.ticket).toBe(load.status);
    if (load.status !== 'settled') continue;
    expect(row?.total, load.ticket).toBe(load.total);
    expect(row?.lines, load.ticket).toEqual(load.lines);
  }
});
