/**
 * Scales, weighing in and out, and ticket numbers: what is asked about, what is refused, and that every number is
 * accounted for.
 */
import { createHash } from 'node:crypto';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Caller, Context } from '../../src/usecases/context.ts';
import { correctLoad, voidLoad } from '../../src/usecases/loads/correct-load.ts';
import { printTicket } from '../../src/usecases/loads/print-ticket.ts';
import { nextTicket, readTicketBook } from '../../src/usecases/loads/read-ticket-book.ts';
import { readTrucks } from '../../src/usecases/loads/read-trucks.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { recordSeries, spendTicket } from '../../src/usecases/loads/spend-ticket.ts';
import { weighIn } from '../../src/usecases/loads/weigh-in.ts';
import { readOpenWeighings, weighOut } from '../../src/usecases/loads/weigh-out.ts';
import { Refusal } from '../../src/usecases/refusal.ts';
import { changeScale, readScales, recordScale } from '../../src/usecases/scales/keep-scale.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { fonts } from '../documents/font-bytes.ts';
import { hasPdftotext, pageTexts, withoutPdftotext } from '../documents/pdf-text.ts';
import { workedExample } from '../oracle/worked-example.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';

let record: TestRecord;
let seller: Context;
let buyer: Context;
let stranger: Context;
let agreementId: string;
let scaleId: string;
let strangersScale: string;

const LOAD = {
  ticket: 'T1',
  delivered_at: '2026-09-14T21:40:00-06:00',
  gross: '78220',
  tare: '31100',
  unit: 'lb',
  sample: 'S1',
};
const SCALE = {
  name: 'Yard scale',
  place: 'North gate',
  unit: 'lb',
  capacity: '120000',
  division: '20',
  accuracy_class: 'III L',
  legal_for_trade: 'yes',
  tested_on: '2025-10-01',
  test_due_on: '2026-10-01',
};

beforeAll(async () => {
  record = await openTestRecord();
  const as = (caller: Caller): Context => ({ ...record.tools, caller });
  seller = as(await newParty(record.tools, 'Quillback Acres'));
  buyer = as(await newParty(record.tools, 'Tarn Hollow Dairy'));
  stranger = as(await newParty(record.tools, 'Sorrel Bend Dairy'));
  ({ scaleId } = await recordScale(seller, { scale: SCALE }));
  ({ scaleId: strangersScale } = await recordScale(stranger, { scale: SCALE }));
});
afterAll(async () => {
  expect((await verifyRecord(record.tools)).faults).toEqual([]);
  await record.close();
});

let count = 0;
beforeEach(async () => {
  const document = { ...workedExample.agreement, id: `W-${++count}` };
  ({ agreementId } = await recordAgreement(seller, {
    document,
    sellerId: seller.caller.partyId,
    buyerId: buyer.caller.partyId,
  }));
});

async function refusal(work: Promise<unknown>): Promise<Refusal> {
  try {
    await work;
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
  throw new Error('It was done');
}
const refused = async (work: Promise<unknown>) => (await refusal(work)).code;
/** The agreement of one test; the whole record is looked at in the end. */
const clean = async () => expect((await verifyRecord(record.tools, { agreementId })).faults).toEqual([]);
const record1 = (load: Record<string, string>, confirmed = false) =>
  recordLoads(seller, { agreementId, loads: [load], confirmed });

describe('scales', () => {
  test('are seen by their owner and its partners, and changed by their owner', async () => {
    expect(await readScales(buyer)).toMatchObject([
      {
        id: scaleId,
        name: 'Yard scale',
        owner: 'Quillback Acres',
        isOwn: false,
        version: 1,
        mayBeOff: '240',
      },
    ]);
    expect(await readScales(stranger)).toMatchObject([{ id: strangersScale, isOwn: true }]);
    const change = { scaleId, baseVersion: 1, scale: SCALE };
    expect(await refused(changeScale(buyer, change))).toBe('not-yours');
    expect(await refused(changeScale(stranger, change))).toBe('not-found');
    expect(await refused(changeScale(seller, { ...change, baseVersion: 2 }))).toBe('changed-meanwhile');
    expect(await changeScale(seller, change)).toEqual({ version: 1 });
    expect(await refused(changeScale(seller, { ...change, scale: { ...SCALE, division: '30000' } }))).toBe(
      'bad-input',
    );
    expect(await refused(recordScale(seller, { scale: { ...SCALE, name: 'yard Scale' } }))).toBe('bad-input');
    const operator = { ...seller, caller: { ...seller.caller, role: 'scale-operator' as const } };
    expect(await refused(recordScale(operator, { scale: { ...SCALE, name: 'Other' } }))).toBe('not-allowed');
  });

  test('a test that is made later does not cover what was weighed before', async () => {
    const { scaleId: own } = await recordScale(seller, { scale: { ...SCALE, name: 'Pit scale' } });
    const late = { ...LOAD, delivered_at: '2026-10-02T08:00:00-06:00', gross_scale: own };
    expect((await refusal(record1(late))).message).toContain('Pit scale was due by 2026-10-01');
    const scale = { ...SCALE, name: 'Pit scale', tested_on: '2026-10-03', test_due_on: '2027-10-03' };
    expect(await changeScale(seller, { scaleId: own, baseVersion: 1, scale })).toEqual({ version: 2 });
    expect(await refused(record1(late))).toBe('unusual');
    await record1({ ...late, ticket: 'T2', delivered_at: '2026-10-03T08:00:00-06:00' });
  });
});

describe('a ticket that names a scale', () => {
  test('is asked about where the scale cannot have shown it', async () => {
    const on = { ...LOAD, gross_scale: scaleId, tare_scale: scaleId };
    expect((await refusal(record1({ ...on, gross: '78225' }))).message).toContain('between two divisions');
    expect((await refusal(record1({ ...on, gross: '120020' }))).message).toContain('120000 lb');
    expect((await refusal(record1({ ...on, unit: 'kg' }))).message).toContain('shows lb');
    expect(await refused(record1({ ...on, tare: '31110' }))).toBe('unusual');
    await record1({ ...on, tare: '31110' }, true);
    await clean();
  });

  test('is asked about for a test that had run out, for gross and tare each on its own day', async () => {
    const on = { ...LOAD, gross_scale: scaleId, tare_scale: scaleId };
    expect(await record1({ ...on, delivered_at: '2026-10-01T23:30:00-06:00' })).toHaveLength(1);
    const tareLate = { ...on, ticket: 'T2', tare_at: '2026-10-02T07:00:00-06:00' };
    expect((await refusal(record1(tareLate))).message).toContain('before this tare on 2026-10-02');
  });

  test('must name one of the two parties', async () => {
    const { code, problems } = await refusal(record1({ ...LOAD, tare_scale: strangersScale }));
    expect([code, problems]).toEqual([
      'bad-input',
      [{ row: 0, column: 'tare_scale', message: 'must be a scale of one of the two parties' }],
    ]);
    // The partner's scale is as good as one's own.
    await recordLoads(buyer, { agreementId, loads: [{ ...LOAD, gross_scale: scaleId }] });
    const photo = { ...LOAD, ticket: 'T2', photo: 'a'.repeat(64) };
    expect((await refusal(record1(photo))).problems).toMatchObject([{ row: 0, column: 'photo' }]);
  });
});

test('a load of a time that is still to come is asked about', async () => {
  // By the record's clock it is noon of 2026-11-25 in UTC.
  const early = { ...LOAD, delivered_at: '2027-09-14T21:40:00-06:00' };
  expect(await refusal(record1(early))).toMatchObject({
    code: 'unusual',
    message: expect.stringContaining('its time, on 2027-09-14, is still to come'),
  });
  expect(await record1(early, true)).toMatchObject([{ isNew: true }]);
});

describe('a load unlike its truck’s', () => {
  const truck = (ticket: string, minute: number, more = {}) => ({
    ...LOAD,
    ticket,
    sample: ticket,
    truck: 'Red 4',
    delivered_at: `2026-09-14T2${minute}:40:00-06:00`,
    ...more,
  });
  test('is asked about, by the loads before it and those beside it', async () => {
    const usual = [0, 1, 2].map((minute) => truck(`T${minute}`, minute, { plate: `QA ${minute}` }));
    const odd = truck('T3', 3, { tare: '13100' });
    // All four in one file: the odd one is named, and nothing is recorded.
    const { code, message } = await refusal(recordLoads(seller, { agreementId, loads: [...usual, odd] }));
    expect([code, message]).toEqual([
      'unusual',
      expect.stringContaining(
        'T3: the tare is 13100 lb; Red 4 had 31100 lb in the middle of its last 3 loads.',
      ),
    ]);
    expect(await readTrucks(buyer, { agreementId })).toEqual([]);
    await recordLoads(seller, { agreementId, loads: usual });
    expect(await refused(record1(odd))).toBe('unusual');
    await record1(odd, true);
    expect(await readTrucks(buyer, { agreementId })).toEqual([
      {
        truck: 'Red 4',
        plate: 'QA 2',
        unit: 'lb',
        usualTare: '31100',
        usualNet: '47120',
        loads: 4,
        lastAt: '2026-09-15T05:40:00.000Z',
      },
    ]);
  });

  test('is not held against itself when it is put right', async () => {
    const loads = [0, 1, 2].map((minute) => truck(`T${minute}`, minute, { tare: '13100' }));
    const [first] = await recordLoads(seller, { agreementId, loads });
    const loadId = first?.id ?? '';
    // Two others are too few to say anything by.
    const right = { loadId, load: truck('T0', 0), reason: 'Wrong truck’s tare', baseVersion: 1 };
    expect(await correctLoad(seller, right)).toEqual({ version: 2 });
    await recordLoads(seller, { agreementId, loads: [truck('T4', 3, { tare: '13100' })] });
    expect(
      await refused(
        correctLoad(seller, { ...right, load: truck('T0', 0, { tare: '31120' }), baseVersion: 2 }),
      ),
    ).toBe('unusual');
  });
});

describe('weighing in and out', () => {
  const IN = {
    ticket: 'T5',
    weighed_at: '2026-09-14T21:40:00-06:00',
    gross: '78220',
    unit: 'lb',
    truck: 'Red 4',
    plate: 'QA 4',
    sample: 'S5',
    weigher: 'Ada',
  };
  const OUT = { ticket: 'T5', tare: '31100', weighed_at: '2026-09-15T06:10:00-06:00', weigher: 'Bo' };

  test('is one load, with both times, scales and weighers', async () => {
    const weighing = { ...IN, scale: scaleId };
    const request = { agreementId, weighing, key: `in-${agreementId}` };
    const entered = await weighIn(seller, request);
    expect(await weighIn(seller, request)).toEqual(entered);
    // Sent under another key it is still the same weighing.
    expect(await weighIn(seller, { agreementId, weighing })).toEqual({ ...entered, isNew: false });
    expect(await readOpenWeighings(buyer, { agreementId })).toMatchObject([
      { ticket: 'T5', gross: '78220', truck: 'Red 4', weighedAtLocal: '2026-09-14 21:40' },
    ]);
    const out = { agreementId, weighing: { ...OUT, scale: scaleId }, key: `out-${agreementId}` };
    const load = await weighOut(buyer, out);
    expect(await weighOut(buyer, out)).toEqual(load);
    expect(await weighOut(seller, { ...out, key: 'another' })).toEqual({ ...load, isNew: false });
    expect(await readOpenWeighings(buyer, { agreementId })).toEqual([]);
    const client = await record.superuser();
    const { rows } = await client.query(
      `SELECT ticket, gross::text, tare::text, truck, plate, weigher, gross_scale_id, tare_scale_id,
         delivered_at = '2026-09-15T03:40:00Z' AS came, tare_at = '2026-09-15T12:10:00Z' AS went
       FROM load WHERE agreement_id = $1`,
      [agreementId],
    );
    await client.end();
    expect(rows).toEqual([
      {
        ...{ ticket: 'T5', gross: '78220', tare: '31100', truck: 'Red 4', plate: 'QA 4' },
        ...{ weigher: 'Ada (gross), Bo (tare)', gross_scale_id: scaleId, tare_scale_id: scaleId },
        ...{ came: true, went: true },
      },
    ]);
    await clean();
  });

  test('keeps its ticket from others until then, and closed once it was a load', async () => {
    await weighIn(seller, { agreementId, weighing: IN });
    expect(await refused(weighIn(seller, { agreementId, weighing: { ...IN, gross: '78240' } }))).toBe(
      'ticket-taken',
    );
    const whole = { ...LOAD, ticket: 'T5' };
    expect(await refused(record1({ ...whole, gross: '78240' }))).toBe('ticket-taken');
    // The same gross at the same moment is this weighing, told whole.
    const [load] = await record1(whole);
    await correctLoad(seller, {
      loadId: load?.id ?? '',
      load: { ...whole, ticket: 'T6' },
      reason: 'Typed 5 for 6',
      baseVersion: 1,
    });
    expect(await readOpenWeighings(seller, { agreementId })).toEqual([]);
    expect(await refused(weighOut(seller, { agreementId, weighing: OUT }))).toBe('not-found');
    expect(await refused(weighIn(seller, { agreementId, weighing: { ...IN, ticket: 'T6' } }))).toBe(
      'ticket-taken',
    );
    await clean();
  });

  test('says faults at the columns that were typed', async () => {
    await weighIn(seller, { agreementId, weighing: IN });
    const wrong = { ...OUT, weighed_at: 'noon', scale: 'x', tare: '99999', gross: '1' };
    const { problems } = await refusal(weighOut(seller, { agreementId, weighing: wrong }));
    expect(problems.map(({ column }) => column)).toEqual(['gross']);
    const { gross: _, ...others } = wrong;
    const said = await refusal(weighOut(seller, { agreementId, weighing: others }));
    expect(said.problems.map(({ column }) => column)).toEqual(['weighed_at', 'scale', 'tare']);
    const empty = await refusal(weighIn(seller, { agreementId, weighing: { gross: '0', unit: 'stone' } }));
    expect(empty.problems.map(({ column }) => column)).toEqual(['ticket', 'weighed_at', 'gross', 'unit']);
    expect(await refused(weighIn(stranger, { agreementId, weighing: IN }))).toBe('not-found');
    const strange = { ...IN, ticket: 'T8', scale: strangersScale };
    expect((await refusal(weighIn(seller, { agreementId, weighing: strange }))).problems).toMatchObject([
      { column: 'scale' },
    ]);
  });

  test('asks about a gross that the empty truck would weigh', async () => {
    const loads = [1, 2, 3].map((n) => ({ ...LOAD, ticket: `U${n}`, sample: `U${n}`, truck: 'Red 4' }));
    await recordLoads(seller, { agreementId, loads });
    const light = { ...IN, gross: '31000' };
    expect(await refused(weighIn(seller, { agreementId, weighing: light }))).toBe('unusual');
    expect(await weighIn(seller, { agreementId, weighing: light, confirmed: true })).toMatchObject({
      isNew: true,
    });
  });

  test('is over once its ticket is void', async () => {
    await weighIn(seller, { agreementId, weighing: IN });
    await spendTicket(seller, { agreementId, ticket: 'T5', use: 'void', reason: 'Tipped back' });
    expect(await readOpenWeighings(seller, { agreementId })).toEqual([]);
    expect(await refused(weighOut(seller, { agreementId, weighing: OUT }))).toBe('not-found');
    await clean();
  });
});

describe('the paper of a ticket', () => {
  const text = async (context: Context, loadId: string) => {
    const { bytes, ticket } = await printTicket(context, { loadId, fonts });
    return `${ticket}: ${pageTexts(bytes).join(' ').replace(/\s+/g, ' ')}`;
  };
  test.skipIf(!hasPdftotext)(`says what is recorded (skipped where ${withoutPdftotext})`, async () => {
    const { scaleId: pit } = await recordScale(seller, {
      scale: { ...SCALE, name: `Second scale ${count}`, place: 'At the pit', certificate: 'C-9' },
    });
    const load = {
      ...LOAD,
      ...{ gross: '78320', gross_scale: scaleId, tare_scale: pit, tare_at: '2026-10-02T07:00:00-06:00' },
    };
    const [recorded] = await record1(load, true);
    const loadId = recorded?.id ?? '';
    const first = await text(buyer, loadId);
    for (const said of [
      'T1: Scale ticket T1',
      'Gross 78,320 lb weighed 2026-09-14 21:40',
      'Tare 31,100 lb weighed 2026-10-02 07:00',
      'Net 47,220 lb',
      `Gross and tare were weighed on different scales: Yard scale and Second scale ${count}.`,
      'Gross and tare were weighed on different days: 2026-09-14 and 2026-10-02.',
      'North gate',
      'At the pit',
      '2026-09-14: Tested on 2025-10-01; the next test is due by 2026-10-01, in 17 days.',
      '2026-10-02: The test of this scale was due by 2026-10-01 and is overdue by 1 day',
      'C-9',
    ])
      expect(first).toContain(said);
    // Both parties hold the same bytes.
    expect(await text(seller, loadId)).toBe(first);
    await correctLoad(seller, {
      ...{ loadId, load: { ...load, gross: '78220', truck: 'Red 4' }, baseVersion: 1, confirmed: true },
      reason: 'Read the gross wrong',
    });
    const second = await text(buyer, loadId);
    expect(second).toContain(
      'Read the gross wrong Gross: 78,220 lb, was 78,320 lb Vehicle: Red 4, was not entered',
    );
    await voidLoad(seller, { loadId, reason: 'Weighed twice', baseVersion: 2 });
    const last = await text(buyer, loadId);
    expect(last).toContain('Void: Weighed twice. Nothing was delivered');
    expect(last).toContain('version 3, void');
    expect(await refused(printTicket(stranger, { loadId, fonts }))).toBe('not-found');
    expect(await refused(printTicket(seller, { loadId: 'x', fonts }))).toBe('not-found');
  });

  test('keeps its scale as it was described when the ticket was written', async () => {
    const scale = { ...SCALE, name: `Old name ${count}` };
    const { scaleId: own } = await recordScale(seller, { scale });
    const [load] = await record1({ ...LOAD, gross_scale: own, tare_scale: own });
    const bytes = async () => {
      const printed = await printTicket(seller, { loadId: load?.id ?? '', fonts });
      return createHash('sha256').update(printed.bytes).digest('hex');
    };
    const before = await bytes();
    await changeScale(seller, {
      scaleId: own,
      baseVersion: 1,
      scale: { ...scale, name: 'New name', place: 'Moved' },
    });
    expect(await bytes()).toBe(before);
  });
});

describe('every number', () => {
  const load = (ticket: string) => ({ ...LOAD, ticket, sample: ticket });
  test('is a load, void, used elsewhere, being weighed, or missing', async () => {
    expect(await nextTicket(seller, { agreementId })).toBeNull();
    const series = { agreementId, series: { prefix: 'T', first: '001' } };
    const begun = await recordSeries(seller, series);
    expect(await recordSeries(buyer, series)).toEqual(begun);
    expect(await refused(recordSeries(buyer, { ...series, series: { prefix: 'T', first: '5' } }))).toBe(
      'bad-input',
    );
    expect(await nextTicket(seller, { agreementId })).toBe('T001');
    const [, second] = await recordLoads(seller, { agreementId, loads: ['T001', 'T002', 'X9'].map(load) });
    await voidLoad(seller, { loadId: second?.id ?? '', reason: 'Weighed twice', baseVersion: 1 });
    const spent = { agreementId, ticket: 'T004', use: 'elsewhere', reason: 'Straw for a neighbour' } as const;
    const once = await spendTicket(buyer, spent);
    expect(await spendTicket(seller, { ...spent, ticket: ' T004 ' })).toEqual(once);
    expect(await refused(spendTicket(seller, { ...spent, use: 'void' }))).toBe('ticket-taken');
    expect(await refused(spendTicket(seller, { ...spent, ticket: 'T001' }))).toBe('ticket-taken');
    expect(await refused(spendTicket(seller, { ...spent, ticket: ' ' }))).toBe('bad-input');
    expect(await refused(spendTicket(seller, { ...spent, ticket: 'T9', reason: '' }))).toBe('bad-input');
    await weighIn(seller, {
      agreementId,
      weighing: { ticket: 'T007', weighed_at: LOAD.delivered_at, gross: '70000', unit: 'lb' },
    });
    expect(await readTicketBook(buyer, { agreementId })).toEqual({
      series: [
        {
          prefix: 'T',
          first: 'T001',
          next: 'T008',
          entries: [
            { ticket: 'T001', use: 'load', loadId: expect.any(String), reason: null },
            { ticket: 'T002', use: 'void', loadId: second?.id, reason: 'Weighed twice' },
            { ticket: 'T004', use: 'elsewhere', loadId: null, reason: 'Straw for a neighbour' },
            { ticket: 'T007', use: 'weighing', loadId: null, reason: null },
          ],
          missing: [
            { from: 'T003', to: 'T003', count: 1 },
            { from: 'T005', to: 'T006', count: 2 },
          ],
        },
      ],
      others: [{ ticket: 'X9', use: 'load', loadId: expect.any(String), reason: null }],
    });
    // A number that was spent is no load's, neither at first nor by a correction.
    expect(await refused(record1(load('T004')))).toBe('ticket-taken');
    const taking = { loadId: second?.id ?? '', load: load('T004'), reason: 'Once more', baseVersion: 2 };
    expect(await refused(correctLoad(seller, taking))).toBe('ticket-taken');
    expect(await refused(readTicketBook(stranger, { agreementId }))).toBe('not-found');
    await clean();
  });
});
