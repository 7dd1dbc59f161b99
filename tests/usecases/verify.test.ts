/**
 * `verify` is clean over an honest record, and names the row after anything in it was changed behind the program's
 * back: every column of every table that it watches, one at a time.
 */
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Client } from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { proposeAmendment, proposeClosing } from '../../src/usecases/offers/propose-amendment.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { workedExample } from '../oracle/worked-example.ts';
import { importTogether, newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { agreed, newSigner, signNewest, TERMS } from './bargain.ts';

let record: TestRecord;
let superuser: Client;
beforeAll(async () => {
  record = await openTestRecord();
  const everything = join(record.choice.dataFolder, 'season');
  await mkdir(everything);
  for (const [name, text] of Object.entries(EVERYTHING)) await writeFile(join(everything, name), text);
  const seller = await newParty(record.tools, 'Oddmeadow Farm');
  const buyer = await newParty(record.tools, 'Lanternfield Dairy');
  for (const folder of ['demo/bushels-dry', everything]) {
    const { problems, agreementId = '' } = await importTogether(record.tools, {
      folder,
      seller,
      buyer,
    });
    expect(problems).toEqual([]);
    await recordResults({ ...record.tools, caller: buyer }, { agreementId, results: [FULL_RESULT] });
  }
  await signAmendAndClose();
  superuser = await record.superuser();
  await disarm();
});
afterAll(async () => {
  await superuser.end();
  await record.close();
});

test('an honest record is clean', async () => {
  const verified = await verifyRecord(record.tools);
  expect(verified.faults).toEqual([]);
  expect(verified).toMatchObject({ agreements: 3 });
  expect(verified.settlements).toBeGreaterThan(30);
  expect(verified.entries).toBeGreaterThan(150);
});

/** An agreement that was signed here, amended and closed. */
async function signAmendAndClose(): Promise<void> {
  const seller = await newSigner(record.tools, 'Hollow Fen Farm');
  const buyer = await newSigner(record.tools, 'Sorrel Bend Dairy');
  const agreementId = await agreed({
    seller: [seller, 'Hollow Fen Farm'],
    buyer: [buyer, 'Sorrel Bend Dairy'],
  });
  const sending = { agreementId, validDays: '10' };
  const { offerId: amendment } = await proposeAmendment(seller, {
    ...sending,
    document: { ...TERMS, rounding: 'half-even' },
    effectiveFrom: '2026-09-20',
  });
  await signNewest(seller, amendment, 'Hollow Fen Farm');
  await signNewest(buyer, amendment, 'Sorrel Bend Dairy');
  const { offerId: closing } = await proposeClosing(buyer, { ...sending, lastDelivery: '2026-10-01' });
  await signNewest(seller, closing, 'Hollow Fen Farm');
  await signNewest(buyer, closing, 'Sorrel Bend Dairy');
}

/** A small season with an election, both choices, distances and a truck. */
const EVERYTHING = {
  'agreement.json': JSON.stringify({
    ...workedExample.agreement,
    references: {
      corn: {
        ...workedExample.agreement.references['corn'],
        rule: { kind: 'seller-elects', from: '2026-09-01', to: '2026-11-30' },
      },
    },
  }),
  'loads.csv': `ticket,delivered_at,gross,tare,unit,sample,miles,truck
T1,2026-09-14T21:40:00-06:00,78220,31100,lb,S1,11.3,Red 4
T2,2026-09-14T22:40:00-06:00,78220,31100,lb,S2,11.3,Red 4
T3,2026-09-14T23:40:00-06:00,78220,31100,lb,S2,11.3,
`,
  'samples.csv':
    'sample,basis,dry_matter,starch,ndf\nS1,dry-matter,59.2,54,31.34\nS2,dry-matter,71.5,54,31\n',
  'prices.csv': 'series,date,price\ncorn-elevator-bid,2026-09-14,4.20\ncorn-elevator-bid,2026-09-15,4.25\n',
  'elections.csv': 'ticket,series,date\nT1,corn-elevator-bid,2026-09-15\nT2,corn-elevator-bid,2026-09-14\n',
  'choices.csv': 'ticket,choice\nT2,accept\nT3,refuse\n',
};

/** Every figure that a laboratory can report. */
const FULL_RESULT = {
  sample: 'S9',
  laboratory: 'Fennel Ridge Laboratory',
  method: 'NIR',
  reported_on: '2026-09-20',
  basis: 'dry-matter',
  dry_matter: '60.10',
  starch: '50',
  ndf: '20',
  adf: '9',
  crude_protein: '8',
  crude_fat: '3',
  ash: '2',
  ph: '4.1',
  ammonia_nitrogen: '5',
  particle_size: '900',
  aflatoxin: '1',
  vomitoxin: '0.5',
};

/** The tables that `verify` watches, and columns of them that it has no need to. */
const WATCHED: Readonly<Record<string, readonly string[]>> = {
  agreement: ['created_at'],
  agreement_version: [],
  series: [],
  quote: [],
  load: [],
  sample: ['recorded_at', 'recorded_by'],
  sample_load: [],
  result: [],
  election: [],
  choice: [],
  // Its version says the same, and a check of the table's own holds the two together.
  settlement: ['supersedes'],
  settlement_line: [],
  settlement_price: [],
  settlement_quote: [],
  journal_entry: ['transaction_id'],
  posting: [],
  account_balance: [],
  signing: [],
  agreement_closing: [],
  signature: [],
};

/** Another value of a type, as near as can be. */
const OTHER: Readonly<Record<string, (column: string) => string>> = {
  uuid: (column) =>
    `overlay(${column}::text placing CASE WHEN ${column}::text LIKE '%0' THEN '1' ELSE '0' END from 36)::uuid`,
  text: (column) => `${column} || 'x'`,
  'character varying': (column) => `${column} || 'x'`,
  character: (column) =>
    `overlay(${column} placing CASE WHEN ${column} LIKE 'A%' OR ${column} LIKE '0%' THEN '1' ELSE '0' END from 1)`,
  numeric: (column) => `${column} + 0.01`,
  integer: (column) => `${column} + 1000`,
  bigint: (column) => `${column} + 1`,
  date: (column) => `${column} + 4000`,
  'timestamp with time zone': (column) => `${column} + interval '1 millisecond'`,
};

describe('a change behind our back is named', async () => {
  test.each(Object.keys(WATCHED))('%s', async (table) => {
    const { rows: columns } = await superuser.query<{ column_name: string; data_type: string }>(
      `SELECT column_name, data_type FROM information_schema.columns WHERE table_schema = 'public' AND table_name = $1`,
      [table],
    );
    expect(columns.length).toBeGreaterThan(0);
    for (const { column_name: column, data_type } of columns) {
      if (WATCHED[table]?.includes(column)) continue;
      const other = OTHER[data_type];
      if (!other) throw new Error(`no other value for ${data_type}`);
      const faults = await faultsAfter(table, {
        set: `"${column}" = ${other(`"${column}"`)}`,
        which: `WHERE "${column}" IS NOT NULL`,
      });
      expect(faults, `${table}.${column}`).not.toEqual([]);
    }
  });

  test.each(Object.keys(WATCHED).filter((table) => !['series', 'sample', 'agreement'].includes(table)))(
    'a row of %s that is gone',
    async (table) => {
      expect(await faultsAfter(table, {})).not.toEqual([]);
    },
  );
});

/** Makes a change as only the database's owner can, verifies, and puts the row back as it was. */
async function faultsAfter(table: string, change: Change): Promise<readonly string[]> {
  const where = `ctid = (SELECT ctid FROM "${table}" ${change.which ?? ''} ORDER BY ctid LIMIT 1)`;
  await superuser.query('DROP TABLE IF EXISTS saved');
  await superuser.query(`CREATE TABLE saved AS SELECT * FROM "${table}" WHERE ${where}`);
  const { rows } = await superuser.query<{ ctid: string }>(
    change.set === undefined
      ? `DELETE FROM "${table}" WHERE ${where} RETURNING NULL AS ctid`
      : `UPDATE "${table}" SET ${change.set} WHERE ${where} RETURNING ctid`,
  );
  expect(rows, `${table} ${change.set}`).toHaveLength(1);
  const { faults } = await verifyRecord(record.tools);
  if (rows[0]?.ctid) await superuser.query(`DELETE FROM "${table}" WHERE ctid = $1`, [rows[0].ctid]);
  await superuser.query(`INSERT INTO "${table}" SELECT * FROM saved`);
  await superuser.query('DROP TABLE saved');
  return faults.map(({ row, message }) => `${row} ${message}`);
}

interface Change {
  /** Undefined: the row is taken away. */
  readonly set?: string;
  /** A condition on the row. */
  readonly which?: string;
}

/** Takes down everything that keeps a row from being changed. */
async function disarm(): Promise<void> {
  const { rows } = await superuser.query<{ name: string; owner: string }>(
    `SELECT conname AS name, conrelid::regclass::text AS owner FROM pg_constraint c
     JOIN pg_namespace n ON n.oid = c.connamespace WHERE contype IN ('c', 'f') AND n.nspname = 'public'`,
  );
  for (const { name, owner } of rows) await superuser.query(`ALTER TABLE ${owner} DROP CONSTRAINT "${name}"`);
  for (const table of Object.keys(WATCHED))
    await superuser.query(`ALTER TABLE "${table}" DISABLE TRIGGER ALL`);
}
