/**
 * A record that an earlier version of the program wrote: brought up to date it is whole, its old entries give the
 * fingerprints that they always gave, and it goes on from there.
 */
import { cp, mkdir, mkdtemp, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { Client } from 'pg';
import { v7 } from 'uuid';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { deliveryPostings } from '../../src/journal/accounts.ts';
import { CHAIN_START, chainEntries, type Entering } from '../../src/journal/chain.ts';
import { canonicalText, sha256 } from '../../src/journal/fingerprint.ts';
import { applyMigrations, readMigrations } from '../../src/store/engine/apply-migrations.ts';
import { openEngine } from '../../src/store/engine/open-engine.ts';
import { openStore, type Store } from '../../src/store/open-store.ts';
import type { Context } from '../../src/usecases/context.ts';
import { correctLoad } from '../../src/usecases/loads/correct-load.ts';
import { readLoadList } from '../../src/usecases/loads/read-load-list.ts';
import { readTicket } from '../../src/usecases/loads/read-ticket.ts';
import { issueInvoices } from '../../src/usecases/money/issue-invoices.ts';
import { recordPayment } from '../../src/usecases/money/record-payment.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { workedExample } from '../oracle/worked-example.ts';
import { RECORDS_FOLDER } from './records-folder.ts';
import { createDatabase, fillFolder, MIGRATIONS, SERVER } from './test-record.ts';

const AT = '2026-11-01T12:00:00.000Z';
const [agreementId, versionId, loadId, sampleId, resultId] = [v7(), v7(), v7(), v7(), v7()];
const [sellerId, buyerId, personId, seriesId] = [v7(), v7(), v7(), v7()];
const QUOTES = [
  { id: v7(), date: '2026-09-14' },
  { id: v7(), date: '2026-09-20' },
];

let folder: string;
let store: Store;

beforeAll(async () => {
  folder = await mkdtemp(join(RECORDS_FOLDER, 'huskledger-upgrade-'));
  const choice = {
    databaseUrl: SERVER === undefined ? undefined : await createDatabase(SERVER),
    dataFolder: join(folder, 'data'),
  };
  await mkdir(choice.dataFolder);
  fillFolder(choice.dataFolder, 'blank');
  // Its tables, as they were when records were first shared.
  const [first] = await readMigrations(MIGRATIONS);
  const old = join(folder, 'migrations');
  await cp(join(MIGRATIONS, first?.name ?? ''), join(old, first?.name ?? ''), { recursive: true });
  const engine = await openEngine(choice);
  const client = new Client(engine.connection);
  await client.connect();
  await applyMigrations(client, old);
  await writeOldRecord(client);
  await client.end();
  await engine.close();
  store = await openStore({ ...choice, migrations: MIGRATIONS });
});
afterAll(async () => {
  await store.close();
  await rm(folder, { recursive: true, force: true });
});

const insert = async (client: Client, table: string, row: Readonly<Record<string, unknown>>) => {
  const names = Object.keys(row);
  await client.query(
    `INSERT INTO "${table}" (${names.join(', ')}) VALUES (${names.map((_, index) => `$${index + 1}`).join(', ')})`,
    Object.values(row),
  );
};

/** Rows and entries with the shapes that they had then. */
async function writeOldRecord(client: Client): Promise<void> {
  const document = canonicalText(workedExample.agreement);
  const recorded = { recorded_at: AT, recorded_by: personId };
  const of = { agreement_id: agreementId };
  await client.query('BEGIN');
  await insert(client, 'party', { id: sellerId, name: 'Quillback Acres' });
  await insert(client, 'party', { id: buyerId, name: 'Tarn Hollow Dairy' });
  await insert(client, 'agreement', {
    id: agreementId,
    seller_id: sellerId,
    buyer_id: buyerId,
    number: 'A-26-014',
  });
  await insert(client, 'agreement_version', {
    ...of,
    id: versionId,
    version: 1,
    document,
    fingerprint: sha256(document),
    ...recorded,
  });
  await insert(client, 'series', { ...of, id: seriesId, name: 'corn-elevator-bid' });
  for (const { id, date } of QUOTES) {
    await insert(client, 'quote', {
      ...of,
      id,
      series_id: seriesId,
      quoted_on: date,
      price: '4.20',
      ...recorded,
    });
  }
  await insert(client, 'sample', { ...of, id: sampleId, name: 'S1', ...recorded });
  await insert(client, 'load', {
    ...{ ...of, id: loadId, ticket: 'T1', delivered_at: '2026-09-15T03:40:00Z', delivered_on: '2026-09-14' },
    ...{ gross: '78220', tare: '31100', unit: 'lb', ...recorded },
  });
  await insert(client, 'sample_load', { ...of, load_id: loadId, sample_id: sampleId });
  await insert(client, 'result', {
    ...{
      ...of,
      id: resultId,
      sample_id: sampleId,
      basis: 'dry-matter',
      dry_matter: '59.2',
      starch: '54',
      ndf: '31.34',
    },
    ...recorded,
  });
  const entries = chainEntries(CHAIN_START, oldFacts(sha256(document)), {
    agreementId,
    postedAt: AT,
    postedBy: personId,
  });
  for (const { sequence, kind, subjectId, document: fact, previous, fingerprint, postings } of entries) {
    await insert(client, 'journal_entry', {
      ...{ ...of, sequence, kind, subject_id: subjectId, document: fact, previous, fingerprint },
      ...{ posted_at: AT, posted_by: personId },
    });
    for (const [place, posting] of postings.entries()) {
      await insert(client, 'posting', { ...of, sequence, place, ...posting });
    }
  }
  await client.query('COMMIT');
}

function oldFacts(fingerprint: string): Entering[] {
  return [
    {
      kind: 'agreement',
      fact: { number: 'A-26-014', seller: sellerId, buyer: buyerId, version: '1', fingerprint },
      subjectId: versionId,
      postings: [],
    },
    ...QUOTES.map(
      ({ id, date }): Entering => ({
        kind: 'quote',
        fact: { series: 'corn-elevator-bid', date, price: '4.20' },
        subjectId: id,
        postings: [],
      }),
    ),
    {
      kind: 'load',
      fact: {
        ...{ ticket: 'T1', deliveredAt: '2026-09-15T03:40:00.000Z', deliveredOn: '2026-09-14' },
        ...{ gross: '78220', tare: '31100', unit: 'lb' },
        ...{ distance: null, distanceUnit: null, truck: null, sample: 'S1' },
      },
      subjectId: loadId,
      postings: deliveryPostings({ weight: '47120', unit: 'lb' }),
    },
    {
      kind: 'result',
      fact: {
        ...{ sample: 'S1', laboratory: null, method: null, reportedOn: null, basis: 'dry-matter' },
        figures: { 'dry-matter': '59.2', starch: '54', ndf: '31.34' },
      },
      subjectId: resultId,
      postings: [],
    },
  ];
}

test('an old record is whole after it was brought up to date, and goes on', async () => {
  let clock = Date.UTC(2026, 10, 25, 12);
  const tools = { store, now: () => clock++, newId: v7 };
  expect((await verifyRecord(tools)).faults).toEqual([]);
  const seller: Context = { ...tools, caller: { personId, partyId: sellerId, role: 'owner' } };
  const { ticket, version } = await readTicket(seller, { loadId });
  const load = { ...ticket, gross: '78320' };
  await correctLoad(seller, { loadId, load, reason: 'Misread', baseVersion: version });
  expect(await settleLoads(seller, { agreementId })).toEqual({ settled: 1, refused: 0, waiting: 0 });
  const { loads } = await readLoadList(seller, { agreementId, status: 'settled', locale: 'en-US' });
  expect(loads.map(({ standing }) => 'total' in standing && standing.total)).toEqual(['1,991.07']);
  // It knew no invoices and payments then.
  const { documents } = await issueInvoices(seller, { agreementId });
  expect(documents).toMatchObject([{ number: '1', kind: 'invoice', payable: '1991.07' }]);
  const payment = { amount: '1991.07', paid_on: '2026-11-25', method: 'check' };
  const received = { agreementId, direction: 'received', payment } as const;
  expect(await recordPayment(seller, received)).toMatchObject({ counts: true });
  expect((await verifyRecord(tools)).faults).toEqual([]);
});
