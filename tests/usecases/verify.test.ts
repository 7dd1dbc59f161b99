/**
 * `verify` is clean over an honest record, and names the row after anything in it was changed behind the program's
 * back: every column of every table that it watches, one at a time.
 */
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Client } from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readAgreementWords } from '../../src/usecases/agreements/read-agreement-words.ts';
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Caller, Context } from '../../src/usecases/context.ts';
import { correctQuote } from '../../src/usecases/corrections/correct-recorded.ts';
import { recordFile } from '../../src/usecases/files/record-file.ts';
import { answerAllowance, proposeAllowance } from '../../src/usecases/loads/agree-allowance.ts';
import { correctLoad } from '../../src/usecases/loads/correct-load.ts';
import { recordChoices } from '../../src/usecases/loads/record-choices.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { recordSeries, spendTicket } from '../../src/usecases/loads/spend-ticket.ts';
import { weighIn } from '../../src/usecases/loads/weigh-in.ts';
import { proposeAmendment, proposeClosing } from '../../src/usecases/offers/propose-amendment.ts';
import { recordQuotes } from '../../src/usecases/prices/record-quotes.ts';
import { setSeriesTerms } from '../../src/usecases/prices/set-series-terms.ts';
import { confirmResult, contestResult } from '../../src/usecases/results/answer-result.ts';
import { attachReport } from '../../src/usecases/results/attach-report.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { handOver } from '../../src/usecases/samples/hand-over.ts';
import { sealParts } from '../../src/usecases/samples/seal-parts.ts';
import { takeSample } from '../../src/usecases/samples/take-sample.ts';
import { recordScale } from '../../src/usecases/scales/keep-scale.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { workedExample } from '../oracle/worked-example.ts';
import { importTogether, newParty, openTestRecord, SERVER, type TestRecord } from '../store/test-record.ts';
import { agreed, newSigner, signNewest, TERMS } from './bargain.ts';
import { everyMoneyRow } from './every-money-row.ts';
import { type EveryRetestRow, everyRetestRow } from './every-retest-row.ts';
import { everySeasonRow } from './every-season-row.ts';

let record: TestRecord;
let superuser: Client;
let over: EveryRetestRow['over'];
beforeAll(async () => {
  record = await openTestRecord();
  const everything = join(record.choice.dataFolder, 'season');
  await mkdir(everything);
  for (const [name, text] of Object.entries(EVERYTHING)) await writeFile(join(everything, name), text);
  const seller = await newParty(record.tools, 'Oddmeadow Farm');
  const buyer = await newParty(record.tools, 'Lanternfield Dairy');
  // The first row of a table is the one that is changed: a small agreement is verified soonest.
  for (const folder of [everything, 'demo/bushels-dry']) {
    const { problems, agreementId = '' } = await importTogether(record.tools, {
      folder,
      seller,
      buyer,
    });
    expect(problems).toEqual([]);
    const results = [FULL_RESULT];
    await recordResults({ ...record.tools, caller: buyer }, { agreementId, results, confirmed: true });
    if (folder === everything) await sampleAndAnswer({ agreementId, seller, buyer });
    await settleSeries({ ...record.tools, caller: buyer }, agreementId);
  }
  await signAmendAndClose();
  await weighAndCorrect();
  await everyMoneyRow(record);
  over = (await everyRetestRow(record)).over;
  await everySeasonRow(record);
  superuser = await record.superuser();
  await disarm();
}, 120_000);
afterAll(async () => {
  await superuser.end();
  await record.close();
});

test('an honest record is clean', async () => {
  const verified = await verifyRecord(record.tools);
  expect(verified.faults).toEqual([]);
  expect(verified).toMatchObject({ agreements: 8 });
  expect(verified.settlements).toBeGreaterThan(30);
  expect(verified.entries).toBeGreaterThan(150);
});

/** Samples, answers, a report and an allowance: what comes between a truck and its settlement. */
async function sampleAndAnswer(of: { agreementId: string; seller: Caller; buyer: Caller }): Promise<void> {
  const { agreementId } = of;
  const seller: Context = { ...record.tools, caller: of.seller };
  const buyer: Context = { ...record.tools, caller: of.buyer };
  const load = {
    delivered_at: '2026-09-15T21:40:00-06:00',
    gross: '78220',
    tare: '31100',
    unit: 'lb',
    miles: '11.3',
  };
  const loads = ['T8', 'T9'].map((ticket) => ({ ...load, ticket, truck: 'Red 4' }));
  const recorded = await recordLoads(seller, { agreementId, loads });
  const taking = {
    sample: 'C1',
    taken_at: '2026-09-15T22:00:00-06:00',
    taken_by: 'Ida Thrush',
    how: 'five scoops',
  };
  await takeSample(seller, { agreementId, taking, tickets: ['T8'] });
  const part = {
    sample: 'C1',
    part: 'buyer',
    seal: 'A-1',
    airtight: 'yes',
    kept_where: 'shed',
    kept_until: '2026-12-20',
  };
  const [sealed] = await sealParts(seller, { agreementId, parts: [part] });
  const handover = {
    handed_at: '2026-09-16T08:00:00-06:00',
    to_whom: 'Fennel Ridge Laboratory',
    kept_where: 'cold room',
    kept_until: '2026-12-24',
    seal_intact: 'yes',
  };
  await handOver(seller, { partId: sealed?.id ?? '', handover });
  const wet = { sample: 'C1', basis: 'dry-matter', dry_matter: '45', starch: '54', ndf: '31' };
  const [result] = await recordResults(buyer, { agreementId, results: [wet] });
  const report = { name: 'report.pdf', bytes: new TextEncoder().encode('%PDF-1.7') };
  const { resultId } = await attachReport(buyer, { agreementId, resultId: result?.id ?? '', report });
  await contestResult(seller, { resultId, reason: 'Wetter than ours' });
  await confirmResult(seller, { resultId });
  const { proposalId } = await proposeAllowance(buyer, {
    loadId: recorded[0]?.id ?? '',
    allowance: { taken_off: '2', per: 'load' },
    reason: 'Wet',
  });
  await answerAllowance(seller, { proposalId, answer: 'refused', reason: 'Too much' });
  const choices = [{ ticket: 'T8', choice: 'refuse', went_to: 'back to the field' }];
  await recordChoices(buyer, { agreementId, choices });
  const quotes = [{ series: 'corn-elevator-bid', date: '2026-09-16', price: '4.30' }];
  await recordQuotes(seller, { agreementId, quotes });
  const client = await record.superuser();
  const { rows } = await client.query<{ id: string }>(
    `SELECT id FROM quote WHERE agreement_id = $1 AND quoted_on = '2026-09-16'`,
    [agreementId],
  );
  await client.end();
  const figures = { price: '4.31' };
  await correctQuote(seller, { agreementId, id: rows[0]?.id ?? '', figures, reason: 'Misread' });
}

/** What was settled about every price that an agreement follows. */
async function settleSeries(context: Context, agreementId: string): Promise<void> {
  const { series } = await readAgreementWords(context, { agreementId });
  const terms = { source: 'The board at the elevator', enteredBy: 'seller', contestDays: '5' };
  for (const name of series) await setSeriesTerms(context, { agreementId, series: name, ...terms });
}

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

/** Tickets that say all that they can, a truck that is still to be weighed empty, a series and a spent number. */
async function weighAndCorrect(): Promise<void> {
  const seller = { ...record.tools, caller: await newParty(record.tools, 'Reedmace Farm') };
  const buyer = await newParty(record.tools, 'Saltlick Dairy');
  const { agreementId } = await recordAgreement(seller, {
    document: { ...workedExample.agreement, id: 'V-1', seller: 'Reedmace Farm', buyer: 'Saltlick Dairy' },
    sellerId: seller.caller.partyId,
    buyerId: buyer.partyId,
  });
  const { scaleId } = await recordScale(seller, {
    scale: {
      ...{ name: 'Yard scale', place: 'North gate', unit: 'lb', capacity: '120000', division: '20' },
      ...{ accuracy_class: 'III L', legal_for_trade: 'no' },
    },
  });
  const file = { name: 'ticket.pdf', bytes: new TextEncoder().encode('%PDF-1.7 a ticket') };
  const { fingerprint } = await recordFile(seller, { agreementId, file });
  const load = {
    ...{ ticket: 'W1', delivered_at: '2026-09-14T21:40:00-06:00', gross: '78220', tare: '31100', unit: 'lb' },
    ...{ sample: 'W1', miles: '11.3', truck: 'Red 4', tare_at: '2026-09-14T22:05:00-06:00' },
    ...{ gross_scale: scaleId, tare_scale: scaleId, moisture_reading: '41.2', plate: 'QA 4', weigher: 'Ada' },
    photo: fingerprint,
  };
  const loads = await recordLoads(seller, { agreementId, loads: [load, { ...load, ticket: 'W2' }] });
  const changed = { loadId: loads[0]?.id ?? '', reason: 'Read it wrong', baseVersion: 1 };
  await correctLoad(seller, { ...changed, load: { ...load, gross: '78240' } });
  await recordSeries(seller, { agreementId, series: { prefix: 'W', first: '1' } });
  await spendTicket(seller, { agreementId, ticket: 'W3', use: 'void', reason: 'Torn' });
  const { delivered_at: weighed_at, tare, miles, tare_at, gross_scale, tare_scale, photo, ...full } = load;
  await weighIn(seller, { agreementId, weighing: { ...full, ticket: 'W4', weighed_at, scale: scaleId } });
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
  dry_matter_method: 'oven, 60 °C',
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
  series_terms: [],
  load: [],
  load_version: [],
  open_weighing: [],
  ticket_series: [],
  spent_ticket: [],
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
  sample_taking: [],
  sample_part: [],
  part_handover: [],
  result_answer: [],
  correction: [],
  correction_answer: [],
  // Its name and kind are for people, and when it came says nothing of the figures.
  record_file: ['name', 'kind', 'recorded_at', 'recorded_by'],
  money_document: [],
  document_load: [],
  payment: [],
  payment_answer: [],
  payment_reversal: [],
  allocation: [],
  hold: [],
  hold_end: [],
  set_off: [],
  set_off_answer: [],
  lien_notice: [],
  lien_end: [],
  retest: [],
  retest_figure: [],
  retest_figure_answer: [],
  retest_proposal: [],
  retest_proposal_answer: [],
  retest_ending: [],
  season_note: [],
  season_note_answer: [],
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
  boolean: (column) => `NOT ${column}`,
  bytea: (column) => `${column} || 'x'::bytea`,
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
    const watched = columns.filter(({ column_name: column }) => !WATCHED[table]?.includes(column));
    // The embedded engine takes its time: a server is asked for each column.
    const tried = SERVER === undefined ? watched.filter((_, index) => index % 6 === 3) : watched;
    for (const { column_name: column, data_type } of tried) {
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

test('an allocation that comes from nothing is named', async () => {
  const source = '0198c0de-0000-7000-8000-000000000001';
  await superuser.query(
    `INSERT INTO allocation SELECT agreement_id, $1, 0, document_id, 0.01, 0 FROM allocation LIMIT 1`,
    [source],
  );
  const { faults } = await verifyRecord(record.tools);
  await superuser.query('DELETE FROM allocation WHERE source_id = $1', [source]);
  expect(faults.map(({ row }) => row)).toEqual([`allocation ${source}`]);
});

describe('an ending that its question does not come to is named', () => {
  test.each([
    ['decided', 'retest_ending', `value = 52.5`, 'comes to 52.4, recorded as 52.5'],
    ['decided', 'retest_ending', `because = 'no-test'`, 'comes out as referee-moved-it, recorded as no-test'],
    ['decided', 'retest_ending', 'buyer_bears = 1', 'shares out 46.00; the tests that counted cost 45.00'],
    [
      'decided',
      'retest_ending',
      'seller_bears = 44.99',
      'shares out 44.99; the tests that counted cost 45.00',
    ],
    [
      'decided',
      'retest_ending',
      'seller_bears = 0, buyer_bears = 45',
      'has the seller bear 0.00 and the buyer 45.00; it should be 45.00 and 0.00',
    ],
    [
      'decided',
      'retest_ending',
      `documents = '["0198c0de-0000-7000-8000-000000000001"]'`,
      'names document 0198c0de-0000-7000-8000-000000000001, which is not there',
    ],
    // The figure that counted was confirmed on that day, so that before it nothing was decided.
    [
      'decided',
      'retest_ending',
      `recorded_at = '2026-10-05T19:00:00Z'`,
      'is a decision, and tests are still called for by then',
    ],
    [
      'decided',
      'retest',
      `rule = replace(rule, '"1.0"', '"1.7"')`,
      'comes out as first-stands, recorded as referee-moved-it',
    ],
    [
      'decided',
      'retest',
      `rule = replace(rule, '"asker-unless-moved"', '"split"')`,
      'has the seller bear 45.00',
    ],
    ['decided', 'retest', `rule = 'nothing'`, 'cannot be worked out again: '],
    ['weighed', 'retest_ending', 'value = 118000', 'comes to 117000, recorded as 118000'],
    ['weighed', 'retest_figure', 'gross = 149800', 'comes out as first-stands, recorded as second-moved-it'],
    ['agreed', 'retest_ending', 'value = 53.4', 'comes to 53.5, recorded as 53.4'],
    [
      'agreed',
      'retest_ending',
      `ending = 'withdrawn'`,
      'is withdrawn, and both sides have not confirmed that',
    ],
    ['withdrawn', 'retest_ending', 'value = 53.9', 'comes to 54.0, recorded as 53.9'],
    ['withdrawn', 'retest_ending', `because = 'tired'`, 'comes out as both-confirmed, recorded as tired'],
  ] as const)('%s: %s %s', async (which, table, set, message) => {
    const id = table === 'retest' ? 'id' : 'retest_id';
    const faults = await faultsAfter(table, { set, which: `WHERE ${id} = '${over[which]}'` });
    const endings = faults.filter((fault) => fault.startsWith('retest_ending '));
    expect(endings.join('; ')).toContain(message);
  });
});

describe('money that takes up a sealed season is held against what both signed and agreed to', () => {
  test.each([
    [
      'money_document',
      'payable = 2199.99',
      `season_rule = 'brought-forward'`,
      'brings forward 2199.99 in all; both sides signed 2200.00',
    ],
    [
      'money_document',
      'of_agreement_id = agreement_id',
      `season_rule = 'brought-forward'`,
      'brings forward a season that is not sealed',
    ],
    [
      'money_document',
      'payable = -85.51',
      `season_rule = 'past-season'`,
      'comes to -85.51; both sides agreed to -85.50',
    ],
    ['season_note', 'amount = -86', `kind = 'past-season'`, 'comes to -85.50; both sides agreed to -86'],
    [
      'season_note_answer',
      `answer = 'refused'`,
      `answer = 'confirmed'`,
      'no note that both agreed to says so',
    ],
  ])('%s %s', async (table, set, which, message) => {
    const faults = await faultsAfter(table, { set, which: `WHERE ${which}` });
    const told = faults.filter((fault) => fault.startsWith('money_document '));
    expect(told.join('; ')).toContain(message);
  });
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
  // The other agreements are as they were: looking at them each time would take most of the time.
  const { rows: kept } = await superuser.query<{ agreementId: string | null }>(
    `SELECT to_jsonb(saved)->>'agreement_id' AS "agreementId" FROM saved`,
  );
  const agreementId = kept[0]?.agreementId;
  const { faults } = await verifyRecord(record.tools, agreementId ? { agreementId } : {});
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
