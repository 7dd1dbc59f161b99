/**
 * Rows for which a party accepts the record: a mark of its own, which falls away when either figure changes and stays when the row
 * has moved to another line.
 */
import { v7 } from 'uuid';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { Context } from '../../src/usecases/context.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { recordPayment } from '../../src/usecases/money/record-payment.ts';
import { acceptRow } from '../../src/usecases/season-close/accept-row.ts';
import { consentToLists } from '../../src/usecases/season-close/consent-to-lists.ts';
import { keepOwnList } from '../../src/usecases/season-close/keep-own-list.ts';
import { matchOwnList } from '../../src/usecases/season-close/open-own-list.ts';
import { readMatching } from '../../src/usecases/season-close/read-matching.ts';
import { readPaymentMatching } from '../../src/usecases/season-close/read-payment-matching.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';
import { refused } from './refused.ts';

let record: TestRecord;
let world: MoneyWorld;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());
beforeEach(async () => {
  world = await moneyWorld(record);
  // 100.00 a short ton as delivered.
  await world.deliver({ T1: '10', T2: '12', T3: '11' }, '2026-11-20');
});

type OwnKind = 'own-loads' | 'own-payments';

async function bring(text: string, kind: OwnKind = 'own-loads') {
  const { agreementId, buyer } = world;
  const file = { agreementId, bytes: new TextEncoder().encode(text) };
  const { proposal } = await matchOwnList(buyer, { ...file, kind });
  const columns = { ...proposal.columns, ...(kind === 'own-loads' ? { unit: { constant: 'lb' } } : {}) };
  const match = { ...proposal, kind, columns, dateOrder: 'year-first', timeOffset: 'agreement' };
  await keepOwnList(buyer, { ...file, fileName: 'x.csv', match: { ...match, decimalMark: '.' } });
}

async function loads() {
  const found = await readMatching(world.buyer, { agreementId: world.agreementId });
  if (!found) throw new Error('no list was brought');
  return found;
}

const say = (word: 'accepted' | 'taken-back', fingerprint: string, kind: OwnKind = 'own-loads') =>
  acceptRow(world.buyer, { agreementId: world.agreementId, kind, fingerprint, word });

const HEAD = 'Ticket,Date,Net,Amount\n';
const T1 = 'T1,2026-11-20,20000,1000.00\n';
const T2_WRONG = 'T2,2026-11-20,42000,1200.00\n';

describe('a row for which the record is accepted', () => {
  test('is counted apart, no longer among what does not agree, and can be taken back', async () => {
    await bring(HEAD + T1 + T2_WRONG);
    const before = await loads();
    expect(before.counts).toMatchObject({ agrees: 1, 'weight-differs': 1, 'only-in-record': 1 });
    expect(before.accepted).toEqual([]);
    const [weight, missing] = before.open;
    await say('accepted', weight?.fingerprint ?? '');
    await say('accepted', weight?.fingerprint ?? '');
    const after = await loads();
    expect(after.counts).toMatchObject({ agrees: 1, 'weight-differs': 0, 'only-in-record': 1 });
    expect(after.accepted).toMatchObject([{ kind: 'pair', mine: { ticket: 'T2' } }]);
    expect(after.open).toEqual([missing]);
    // A load that the list lacks is accepted alike.
    await say('accepted', missing?.fingerprint ?? '');
    expect(await loads()).toMatchObject({
      open: [],
      accepted: [{ kind: 'pair' }, { kind: 'only', in: 'record' }],
    });
    await say('taken-back', weight?.fingerprint ?? '');
    expect(await loads()).toMatchObject({
      counts: { 'weight-differs': 1, 'only-in-record': 0 },
      open: [{ kind: 'pair' }],
      accepted: [{ kind: 'only' }],
    });
    await say('accepted', weight?.fingerprint ?? '');
    expect((await loads()).accepted).toHaveLength(2);
  });

  test('stays accepted when the list comes again with the row on another line', async () => {
    await bring(HEAD + T1 + T2_WRONG);
    const [weight] = (await loads()).open;
    await say('accepted', weight?.fingerprint ?? '');
    await bring(`${HEAD}${T2_WRONG}T3,2026-11-20,22000,1100.00\n${T1}`);
    expect(await loads()).toMatchObject({ open: [], accepted: [{ mine: { id: '2', ticket: 'T2' } }] });
  });

  test('is open again when the list says something else', async () => {
    await bring(HEAD + T1 + T2_WRONG);
    const [weight] = (await loads()).open;
    await say('accepted', weight?.fingerprint ?? '');
    await bring(`${HEAD}${T1}T2,2026-11-20,42020,1200.00\n`);
    const now = await loads();
    expect(now.accepted).toEqual([]);
    expect(now.open[0]).toMatchObject({ mine: { net: '42020' } });
    // What was on somebody's screen is not there any more.
    expect(await refused(say('accepted', weight?.fingerprint ?? ''))).toBe('changed-meanwhile');
  });

  test('is open again when the record says something else', async () => {
    const { deliver } = world;
    await bring(
      `${HEAD}${T1}T2,2026-11-20,24000,1200.00\nT3,2026-11-20,22000,1100.00\nT4,2026-11-21,18000,900.00\n`,
    );
    const [alone] = (await loads()).open;
    expect(alone).toMatchObject({ kind: 'only', in: 'mine', row: { ticket: 'T4' } });
    await say('accepted', alone?.fingerprint ?? '');
    expect((await loads()).open).toEqual([]);
    await deliver({ T4: '10' }, '2026-11-21');
    const now = await loads();
    expect(now.accepted).toEqual([]);
    expect(now.open).toMatchObject([{ kind: 'pair', mine: { ticket: 'T4' }, record: { net: '20000' } }]);
  });

  test('is open again when its load is priced', async () => {
    const { agreementId, seller } = world;
    const row = { ticket: 'T4', delivered_at: '2026-11-21T09:00:00-06:00', gross: '50000', tare: '30000' };
    await recordLoads(seller, { agreementId, loads: [{ ...row, unit: 'lb' }], confirmed: true });
    const right = 'T2,2026-11-20,24000,1200.00\nT3,2026-11-20,22000,1100.00\n';
    await bring(`${HEAD}${T1}${right}T4,2026-11-21,18000,900.00\n`);
    const [waiting] = (await loads()).open;
    expect(waiting).toMatchObject({ mine: { ticket: 'T4' }, record: { net: '20000', amount: null } });
    await say('accepted', waiting?.fingerprint ?? '');
    expect(await loads()).toMatchObject({ open: [], accepted: [{ mine: { ticket: 'T4' } }] });
    await settleLoads(seller, { agreementId });
    expect(await loads()).toMatchObject({ open: [{ record: { amount: '1000.00' } }], accepted: [] });
  });

  test('is one of two that say the same, and the other stays open', async () => {
    await bring(`${HEAD}${T1}${T1}${T1}T2,2026-11-20,24000,1200.00\nT3,2026-11-20,22000,1100.00\n`);
    const [first, second] = (await loads()).open;
    expect(await loads()).toMatchObject({ open: [{ kind: 'twice' }, { kind: 'twice' }] });
    expect(first?.fingerprint).not.toBe(second?.fingerprint);
    await say('accepted', first?.fingerprint ?? '');
    expect(await loads()).toMatchObject({ counts: { twice: 1 }, open: [second], accepted: [first] });
  });

  test('can be a payment, whatever documents came since', async () => {
    const { agreementId, seller, buyer } = world;
    await world.invoice();
    await recordPayment(seller, {
      agreementId,
      direction: 'received',
      payment: { amount: '540.25', paid_on: '2026-11-22', method: 'check', reference: '1044' },
      confirmed: true,
    });
    await bring('Check no,Date,Amount\n1044,2026-11-22,504.25\n', 'own-payments');
    const read = () => readPaymentMatching(buyer, { agreementId });
    const [amount] = (await read())?.open ?? [];
    await say('accepted', amount?.fingerprint ?? '', 'own-payments');
    // The same digits name nothing among the loads.
    await bring(HEAD + T1 + T2_WRONG);
    expect(await refused(say('accepted', amount?.fingerprint ?? ''))).toBe('changed-meanwhile');
    await world.deliver({ T5: '7' }, '2026-11-23');
    await world.invoice();
    expect(await read()).toMatchObject({
      counts: { 'amount-differs': 0 },
      open: [],
      accepted: [{ kind: 'pair', differences: [{ by: '-36.00' }] }],
    });
  });
});

describe('the mark', () => {
  test('is its party’s alone, also while both see each other’s lists, and its office’s to set', async () => {
    const { agreementId, seller, buyer } = world;
    await bring(HEAD + T1 + T2_WRONG);
    const [weight] = (await loads()).open;
    const fingerprint = weight?.fingerprint ?? '';
    const asked = { agreementId, kind: 'own-loads', fingerprint, word: 'accepted' } as const;
    const viewer: Context = { ...buyer, caller: { ...buyer.caller, role: 'viewer' } };
    expect(await refused(acceptRow(viewer, asked))).toBe('not-allowed');
    expect(await refused(acceptRow(seller, asked))).toBe('changed-meanwhile');
    expect(await refused(acceptRow(buyer, { ...asked, kind: 'tickets' }))).toBe('bad-input');
    const stranger: Context = { ...buyer, caller: await newParty(record.tools, 'Fernway Orchards') };
    expect(await refused(acceptRow(stranger, asked))).toBe('not-found');
    await acceptRow(buyer, asked);
    for (const by of [seller, buyer]) await consentToLists(by, { agreementId, word: 'given' });
    const seen = async ({ caller }: Context) =>
      await record.tools.store.forParty(caller.partyId, (tx) =>
        tx.$queryRawUnsafe<unknown[]>('SELECT 1 FROM accepted_row'),
      );
    expect(await seen(buyer)).toHaveLength(1);
    expect(await seen(seller)).toEqual([]);
    expect(await seen(stranger)).toEqual([]);
  });

  test('is held by the database: written once, in turn, by its party', async () => {
    const { agreementId, seller, buyer } = world;
    const as = ({ caller }: Context, sql: string, ...values: unknown[]) =>
      record.tools.store.forParty(caller.partyId, (tx) => tx.$executeRawUnsafe(sql, ...values));
    const insert = (
      by: Context,
      { party = by, version = 1, word = 'accepted', kind = 'own-loads', of = 'a' },
    ) =>
      as(
        by,
        'INSERT INTO accepted_row VALUES ($1::uuid, $2::uuid, $3::uuid, $4, $5, $6::int, $7, now(), $8::uuid)',
        ...[agreementId, v7(), party.caller.partyId, kind, of.repeat(64), version, word, by.caller.personId],
      );
    await expect(insert(seller, { party: buyer })).rejects.toThrow(/row-level security/);
    const stranger = { ...buyer, caller: await newParty(record.tools, 'Sorrel Bend Dairy') };
    await expect(insert(stranger, {})).rejects.toThrow(/row-level security/);
    await expect(insert(buyer, { kind: 'tickets' })).rejects.toThrow(/accepted_row_kind/);
    await expect(insert(buyer, { of: 'x' })).rejects.toThrow(/accepted_row_fingerprint/);
    await expect(insert(buyer, { word: 'taken-back' })).rejects.toThrow(/accepted_row_word/);
    await insert(buyer, {});
    await expect(insert(buyer, {})).rejects.toThrow(/duplicate key|Unique constraint/);
    await expect(insert(buyer, { of: 'b', version: 2, word: 'taken-back' })).rejects.toThrow(
      /follows the one before/,
    );
    const client = await record.superuser();
    for (const sql of ["UPDATE accepted_row SET word = 'accepted'", 'DELETE FROM accepted_row']) {
      await expect(as(buyer, sql)).rejects.toThrow(/permission denied/);
      await expect(client.query(sql)).rejects.toThrow(/written once/);
    }
    await expect(client.query('TRUNCATE accepted_row')).rejects.toThrow(/written once/);
    await client.end();
  });
});
