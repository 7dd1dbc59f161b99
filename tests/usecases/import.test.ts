/**
 * Files of other programs brought in: every fault named at its place, nothing written until it is taken, all or nothing,
 * and the same file twice adds nothing.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { proposeMatch } from '../../src/domain/tables/match-columns.ts';
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Context } from '../../src/usecases/context.ts';
import { matchImport } from '../../src/usecases/import/match-import.ts';
import { previewImport } from '../../src/usecases/import/preview-import.ts';
import { takeImport } from '../../src/usecases/import/take-import.ts';
import { correctLoad } from '../../src/usecases/loads/correct-load.ts';
import { recordQuotes } from '../../src/usecases/prices/record-quotes.ts';
import { Refusal } from '../../src/usecases/refusal.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { workedExample } from '../oracle/worked-example.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import {
  csv,
  LAB_HEADER,
  LAB_MATCH,
  labRows,
  type Planted,
  planted,
  SCALE_HEADER,
  SCALE_MATCH,
  scaleRows,
} from './scale-house-file.ts';

let record: TestRecord;
let seller: Context;
let buyer: Context;
let agreementId: string;
let count = 0;

beforeAll(async () => {
  record = await openTestRecord();
  seller = { ...record.tools, caller: await newParty(record.tools, 'Quillback Acres') };
  buyer = { ...record.tools, caller: await newParty(record.tools, 'Tarn Hollow Dairy') };
});
afterAll(async () => {
  expect((await verifyRecord(record.tools)).faults).toEqual([]);
  await record.close();
});

async function newAgreement(): Promise<void> {
  const document = { ...workedExample.agreement, id: `I-${++count}` };
  const parties = { sellerId: seller.caller.partyId, buyerId: buyer.caller.partyId };
  ({ agreementId } = await recordAgreement(seller, { document, ...parties }));
}

async function refusal(work: Promise<unknown>): Promise<Refusal> {
  const error: unknown = await work.then(
    () => undefined,
    (thrown: unknown) => thrown,
  );
  if (error instanceof Refusal) return error;
  throw error ?? new Error('was not refused');
}

async function written(): Promise<Record<string, number>> {
  const client = await record.superuser();
  const counts: Record<string, number> = {};
  for (const table of ['load', 'sample', 'result', 'quote', 'journal_entry']) {
    const { rows } = await client.query<{ n: number }>(
      `SELECT count(*)::int AS n FROM ${table} WHERE agreement_id = $1`,
      [agreementId],
    );
    counts[table] = rows[0]?.n ?? -1;
  }
  await client.end();
  return counts;
}

/** 38 faults among the tickets, of every kind, and 12 among the results. */
const SCALE_FAULTS: readonly Planted[] = [
  ...[3, 1999].map((row) => ({ row, column: 'Tkt #', cell: '' })),
  // Repeats of the ticket two rows before; where the earlier has that number, the later is the fault.
  ...[40, 41, 900].map((row) => ({ row, column: 'Tkt #', cell: String(10_001 + row - 2) })),
  ...['2/30/2026', '14/9/2026', 'Sept 14', '', '9/14', '13/13/2026'].map((cell, index) => ({
    row: 100 + index * 17,
    column: 'Date',
    cell,
  })),
  ...['25:10', '9.5', 'noon', '13:00 PM', '7:61 AM'].map((cell, index) => ({
    row: 300 + index * 19,
    column: 'Time',
    cell,
  })),
  ...['', 'seventy', '78,22', '-78,220', '1.2.3', '78220 lb', '7 8220'].map((cell, index) => ({
    row: 500 + index * 23,
    column: 'Gross (lb)',
    cell,
  })),
  ...['', '31,10', 'empty', '3l,100', '(31,100)', '31,100-'].map((cell, index) => ({
    row: 1000 + index * 29,
    column: 'Tare (lb)',
    cell,
  })),
  ...['1', '47,121', 'x', '47,120.5', 'heavy', '0', '99,999', '4,712', '47'].map((cell, index) => ({
    row: 1500 + index * 31,
    column: 'Net (lb)',
    cell,
  })),
];
const LAB_FAULTS: readonly Planted[] = [
  { row: 5, column: 'Bag', cell: '' },
  { row: 17, column: 'Bag', cell: 'B16' },
  { row: 30, column: 'Moisture %', cell: '100' },
  { row: 55, column: 'Moisture %', cell: '' },
  { row: 80, column: 'Moisture %', cell: '40,8' },
  { row: 120, column: 'Starch % DM', cell: '540' },
  { row: 150, column: 'Starch % DM', cell: 'n/a' },
  { row: 200, column: 'aNDF % DM', cell: '62' },
  { row: 290, column: 'ADF % DM', cell: '28.0' },
  { row: 301, column: 'ADF % DM', cell: '<10' },
  { row: 400, column: 'Reported', cell: '31/9/2026' },
  { row: 599, column: 'Reported', cell: 'soon' },
];

function places(faults: readonly Planted[]): string[] {
  return faults.map(({ row, column }) => `${row + 2} ${column}`).sort();
}

describe('2,000 loads and 600 results of another program', () => {
  const loads = scaleRows(2000);
  const results = labRows(600);
  const file = (faults: readonly Planted[]) => ({
    agreementId,
    match: SCALE_MATCH,
    bytes: csv(SCALE_HEADER, planted(SCALE_HEADER, loads, faults)),
  });
  const report = (faults: readonly Planted[]) => ({
    agreementId,
    match: LAB_MATCH,
    bytes: csv(LAB_HEADER, planted(LAB_HEADER, results, faults)),
  });

  beforeAll(newAgreement);

  test('are matched by what they are', async () => {
    const { bytes } = file([]);
    const matched = await matchImport(seller, { agreementId, kind: 'tickets', bytes });
    expect(matched).toMatchObject({ header: SCALE_HEADER, rowCount: 2000, timeZone: 'America/Boise' });
    const { columns } = matched.proposal;
    // "Rig" and "Bag" are this program's own words: bag is known, rig is matched by hand.
    const { truck: _, ...byItself } = SCALE_MATCH.columns;
    expect(columns).toEqual(byItself);
    const head = { kind: 'results', header: LAB_HEADER, rows: results } as const;
    expect(proposeMatch(head).columns).toEqual(LAB_MATCH.columns);
  });

  test('50 planted faults are named, each with its line and its own column, and nothing is written', async () => {
    expect(SCALE_FAULTS.length + LAB_FAULTS.length).toBe(50);
    const before = await written();
    const [tickets, samples] = [file(SCALE_FAULTS), report(LAB_FAULTS)];
    const named: string[] = [];
    for (const [asked, faults] of [
      [tickets, SCALE_FAULTS],
      [samples, LAB_FAULTS],
    ] as const) {
      const preview = await previewImport(seller, asked);
      const wrong = preview.rows.filter(({ standing }) => standing === 'wrong');
      const told = wrong.flatMap(({ line, problems }) => problems.map(({ column }) => `${line} ${column}`));
      expect(told.sort()).toEqual(places(faults));
      expect(preview.counts).toEqual({
        new: preview.rows.length - faults.length,
        there: 0,
        differs: 0,
        wrong: faults.length,
      });
      named.push(...told);
      const refused = await refusal(takeImport(seller, asked));
      expect(refused.code).toBe('bad-input');
      expect(refused.problems).toHaveLength(faults.length);
    }
    expect(named).toHaveLength(50);
    expect(await written()).toEqual(before);
  });

  test('put right they are taken in seconds, and again they add nothing', async () => {
    const began = performance.now();
    expect((await previewImport(seller, file([]))).counts).toEqual({
      new: 2000,
      there: 0,
      differs: 0,
      wrong: 0,
    });
    expect((await written())['load']).toBe(0);
    expect(await takeImport(seller, file([]))).toMatchObject({ added: 2000, there: 0, isRepeat: false });
    expect(await takeImport(seller, report([]))).toMatchObject({ added: 600, there: 0, isRepeat: false });
    const seconds = (performance.now() - began) / 1000;
    const after = await written();
    expect(after).toMatchObject({ load: 2000, sample: 600, result: 600, journal_entry: 2601 });
    expect(await takeImport(seller, file([]))).toMatchObject({ added: 0, there: 2000, isRepeat: true });
    expect(await takeImport(seller, report([]))).toMatchObject({ added: 0, there: 600, isRepeat: true });
    // The other side has the same file: all of it is there already.
    expect((await previewImport(buyer, file([]))).counts).toMatchObject({ new: 0, there: 2000 });
    expect(await takeImport(buyer, file([]))).toMatchObject({ added: 0, there: 2000, isRepeat: false });
    expect(await written()).toEqual(after);
    expect(seconds).toBeLessThan(30);
  });

  test('a ticket that was put right meanwhile differs, and is left out when asked', async () => {
    const more = scaleRows(2000).map((row) => [...row]);
    more.push(['99', '9/22/2026', '5:00 PM', '3', '78,000', '31,000', '47,000', '']);
    const longer = { agreementId, match: SCALE_MATCH, bytes: csv(SCALE_HEADER, more) };
    const client = await record.superuser();
    const { rows } = await client.query<{ id: string }>(
      `SELECT id FROM load WHERE agreement_id = $1 AND ticket = '10001'`,
      [agreementId],
    );
    await client.end();
    const load = {
      ticket: '10001',
      delivered_at: '2026-09-01T00:00:00-06:00',
      gross: '76020',
      tare: '30600',
      unit: 'lb',
      sample: 'B1',
      truck: '1',
    };
    const loadId = rows[0]?.id ?? '';
    await correctLoad(seller, { loadId, load, reason: 'Read the gross wrong', baseVersion: 1 });
    const preview = await previewImport(seller, longer);
    expect(preview.counts).toEqual({ new: 1, there: 1999, differs: 1, wrong: 0 });
    const differing = preview.rows.find(({ standing }) => standing === 'differs');
    expect(differing).toMatchObject({
      line: 2,
      differences: [{ column: 'gross', recorded: '76020', given: '76000' }],
    });
    expect((await refusal(takeImport(seller, longer))).code).toBe('ticket-taken');
    expect(await takeImport(seller, { ...longer, leaveDiffering: true })).toMatchObject({
      added: 1,
      there: 1999,
      leftOut: 1,
    });
  });
});

describe('a file', () => {
  beforeAll(newAgreement);
  const text = (content: string) => new TextEncoder().encode(content);
  const match = {
    kind: 'quotes',
    columns: { series: { constant: 'corn-elevator-bid' }, date: { column: 0 }, price: { column: 1 } },
    dateOrder: 'day-first',
    decimalMark: ',',
    timeOffset: 'agreement',
  };

  test('of quotes with decimal commas and semicolons', async () => {
    await recordQuotes(seller, {
      agreementId,
      quotes: [
        { series: 'corn-elevator-bid', date: '2026-09-14', price: '4.20' },
        { series: 'corn-elevator-bid', date: '2026-09-15', price: '4.25' },
      ],
    });
    const bytes = text('Tag;Preis\n14.9.2026;4,2\n15.9.2026;4,30\n16.9.2026;4,35\n25.11.2027;4,40\n');
    const preview = await previewImport(seller, { agreementId, bytes, match });
    // A figure is one whatever its zeros; a day to come would close the days before it.
    expect(preview.rows.map(({ standing }) => standing)).toEqual(['there', 'differs', 'new', 'wrong']);
    expect(preview.rows[3]?.problems[0]?.column).toBe('Tag');
    const other = { ...match, columns: { ...match.columns, series: { constant: 'rye' } } };
    const foreign = await previewImport(seller, { agreementId, bytes, match: other });
    expect(foreign.counts.wrong).toBe(4);
    const three = text('Tag;Preis\n14.9.2026;4,2\n15.9.2026;4,30\n16.9.2026;4,35\n');
    const asked = { agreementId, bytes: three, match };
    expect((await refusal(takeImport(seller, asked))).code).toBe('quote-taken');
    expect(await takeImport(seller, { ...asked, leaveDiffering: true })).toMatchObject({
      added: 1,
      there: 1,
    });
  });

  test('with figures that are hardly right is asked about before it is taken', async () => {
    const bytes = text('Tag;Preis\n17.9.2026;43,50\n');
    const preview = await previewImport(seller, { agreementId, bytes, match });
    expect(preview.counts.new).toBe(1);
    expect(preview.unusual).toContain('mistyped');
    expect((await refusal(takeImport(seller, { agreementId, bytes, match }))).code).toBe('unusual');
    expect(await takeImport(seller, { agreementId, bytes, match, confirmed: true })).toMatchObject({
      added: 1,
    });
  });

  test('of results that differ from those recorded', async () => {
    const results = { ...LAB_MATCH, columns: { ...LAB_MATCH.columns } };
    const [first = []] = labRows(1);
    const asked = (row: readonly string[]) => ({
      agreementId,
      match: results,
      bytes: csv(LAB_HEADER, [row]),
    });
    expect(await takeImport(buyer, asked(first))).toMatchObject({ added: 1 });
    const other = first.with(2, '53.0');
    const preview = await previewImport(buyer, asked(other));
    expect(preview.rows[0]?.differences).toEqual([{ column: 'starch', recorded: '52.0', given: '53.0' }]);
    expect((await refusal(takeImport(buyer, asked(other)))).code).toBe('result-taken');
  });

  test('that cannot be read is refused as a whole, and so is a match that cannot be used', async () => {
    const tried = (bytes: Uint8Array, by: unknown = match) =>
      refusal(previewImport(seller, { agreementId, bytes, match: by }));
    for (const [bytes, words] of [
      [text(''), 'is empty'],
      [text('Tag;Preis\n'), 'no rows'],
      [new Uint8Array([0x54, 0xff, 0x0a]), 'UTF-8'],
      [new Uint8Array([0x54, 0, 0x0a]), 'zero bytes'],
      [text('Tag;Preis\n"14.9.2026;4,2\n'), 'never closed'],
      [new Uint8Array(10 * 1024 * 1024 + 1).fill(0x41), '10 MB'],
    ] as const) {
      const refused = await tried(bytes);
      expect([refused.code, refused.message.includes(words)]).toEqual(['bad-input', true]);
    }
    const good = text('Tag;Preis\n14.9.2026;4,2\n');
    expect((await tried(good, {})).code).toBe('bad-input');
    const noPrice = { ...match, columns: { date: { column: 0 } } };
    expect((await tried(good, noPrice)).problems.map(({ column }) => column)).toEqual(['series', 'price']);
  });

  test('is brought in by whoever may record its rows, for an agreement of theirs', async () => {
    const bytes = text('Tag;Preis\n14.9.2026;4,2\n');
    const viewer: Context = { ...seller, caller: { ...seller.caller, role: 'viewer' } };
    expect((await refusal(previewImport(viewer, { agreementId, bytes, match }))).code).toBe('not-allowed');
    expect((await refusal(takeImport(viewer, { agreementId, bytes, match }))).code).toBe('not-allowed');
    const matching = { agreementId, kind: 'quotes', bytes } as const;
    expect((await refusal(matchImport(viewer, matching))).code).toBe('not-allowed');
    const stranger: Context = { ...seller, caller: await newParty(record.tools, 'Sorrel Bend Dairy') };
    expect((await refusal(takeImport(stranger, { agreementId, bytes, match }))).code).toBe('not-found');
    expect((await refusal(matchImport(stranger, matching))).code).toBe('not-found');
  });
});
