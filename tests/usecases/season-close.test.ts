/**
 * Closing a season: what stands in its way, one statement that both sign, and a journal that takes nothing more, also not from
 * the database's own owner.
 */
import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { merkleRoot } from '../../src/journal/merkle.ts';
import type { Context } from '../../src/usecases/context.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { recordPayment } from '../../src/usecases/money/record-payment.ts';
import { readActions } from '../../src/usecases/notices/read-actions.ts';
import { proposeClose, signClose } from '../../src/usecases/season-close/close-season.ts';
import { readClose } from '../../src/usecases/season-close/read-close.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';
import { refused } from './refused.ts';

let record: TestRecord;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());

/** Two loads for 2,200.00, invoiced, and paid where `pays`. */
async function season(pays: boolean): Promise<MoneyWorld> {
  const world = await moneyWorld(record, {
    conditions: { volume: { amount: '20', unit: 'short-ton', weight: 'as-fed', tolerancePercent: '10' } },
  });
  await world.deliver({ T1: '10', T2: '12' }, '2026-11-20');
  await world.invoice();
  if (pays) {
    await recordPayment(world.seller, {
      agreementId: world.agreementId,
      direction: 'received',
      payment: { amount: '2200', paid_on: '2026-11-24', method: 'check' },
      confirmed: true,
    });
  }
  return world;
}

const load = (agreementId: string, ticket: string) => ({
  agreementId,
  confirmed: true,
  loads: [{ ticket, delivered_at: '2026-11-21T09:00:00-07:00', gross: '50000', tare: '30000', unit: 'lb' }],
});

/** What is asked of a side about its seasons. */
const asked = async (context: Context) =>
  (await readActions(context, { locale: 'en-US' })).flatMap(({ kind, words, path, since }) =>
    kind === 'season' ? [{ words, path, since }] : [],
  );

async function documents({ agreementId }: MoneyWorld): Promise<readonly string[]> {
  const client = await record.superuser();
  const { rows } = await client.query<{ document: string }>(
    'SELECT document FROM journal_entry WHERE agreement_id = $1 ORDER BY sequence',
    [agreementId],
  );
  await client.end();
  return rows.map(({ document }) => document);
}

describe('a season', () => {
  test('is signed shut by both, over the root of its journal', async () => {
    const world = await season(true);
    const { agreementId, seller, buyer } = world;
    const drawn = await readClose(seller, { agreementId });
    expect(drawn.points).toEqual([]);
    expect(drawn.statement).toMatchObject({
      loads: { settled: '2', refused: '0', unsettled: '0' },
      committed: { amount: '20', delivered: '22', standing: 'within' },
      money: { settled: '2200.00', invoiced: '2200.00', paid: '2200.00', balance: '0.00' },
      carried: [],
    });
    const { closeId, fingerprint } = await proposeClose(seller, {
      agreementId,
      carriesOver: false,
      name: 'Wren Alder',
    });
    const sign = { closeId, fingerprint, name: 'Juniper Marsh' };
    expect(await refused(signClose(seller, sign))).toBe('not-yours');
    expect(await refused(signClose(buyer, { ...sign, name: ' ' }))).toBe('bad-input');
    expect(await refused(signClose(buyer, { ...sign, fingerprint: 'f'.repeat(64) }))).toBe(
      'changed-meanwhile',
    );
    const { root } = await signClose(buyer, sign);
    expect(root).toBe(merkleRoot((await documents(world)).map((document) => Buffer.from(document))));
    const sealed = await readClose(buyer, { agreementId });
    expect(sealed.seal?.root).toBe(root);
    expect(sealed.drawn?.signatures.map(({ name }) => name)).toEqual(['Wren Alder', 'Juniper Marsh']);
    // Nothing is recorded any more: by the program, by its role, or by the owner of the tables.
    expect(await refused(recordLoads(seller, load(agreementId, 'T3')))).toBe('season-closed');
    expect(await refused(proposeClose(buyer, { agreementId, carriesOver: true, name: 'X' }))).toBe(
      'season-closed',
    );
    const client = await record.superuser();
    const fact = 'late';
    const previous = (
      await client.query(
        'SELECT fingerprint FROM journal_entry WHERE agreement_id = $1 ORDER BY sequence DESC LIMIT 1',
        [agreementId],
      )
    ).rows[0].fingerprint;
    const hash = createHash('sha256').update(`${previous}\n${fact}`).digest('hex');
    const count = (await documents(world)).length;
    await expect(
      client.query(
        `INSERT INTO journal_entry (agreement_id, sequence, kind, subject_id, document, previous, fingerprint, posted_at, posted_by)
         VALUES ($1, $2, 'load', $3, $4, $5, $6, now(), $3)`,
        [agreementId, count + 1, seller.caller.personId, fact, previous, hash],
      ),
    ).rejects.toThrow(/sealed/);
    await client.end();
    expect((await verifyRecord(record.tools)).faults).toEqual([]);
  });

  test('is not closed over what somebody has to answer, and carries over what both agree to', async () => {
    const world = await season(false);
    const { agreementId, seller, buyer } = world;
    await recordLoads(seller, load(agreementId, 'T3'));
    const propose = { agreementId, name: 'Wren Alder' };
    expect((await readClose(buyer, { agreementId })).points).toEqual([
      { kind: 'unsettled', count: 1, amount: null },
      { kind: 'balance', count: 1, amount: '2200.00' },
    ]);
    await expect(proposeClose(seller, { ...propose, carriesOver: false })).rejects.toThrow(
      /One load has not settled\. .+ owes 2200\.00 USD\. Settle that first, or tick that what may be carried over is carried over\.$/,
    );
    await recordPayment(buyer, {
      agreementId,
      direction: 'paid',
      payment: { amount: '700', paid_on: '2026-11-24', method: 'check' },
      confirmed: true,
    });
    await expect(proposeClose(seller, { ...propose, carriesOver: true })).rejects.toThrow(
      /One payment is not answered\. Settle that first\.$/,
    );
  });

  test('adds up with what was taken off for paying early, and tells interest that is not charged', async () => {
    const world = await moneyWorld(record, {
      conditions: {
        payment: {
          ...{ netDays: '5', from: 'invoice', invoices: 'day' },
          discount: { percent: '2', withinDays: '3' },
          interest: { percentPerYear: '12', dayCount: 'actual/365' },
        },
      },
    });
    const { agreementId, seller, buyer } = world;
    world.on('2026-11-01');
    await world.deliver({ T1: '10', T2: '12' }, '2026-10-30');
    await world.deliver({ T3: '20' }, '2026-10-31');
    await world.invoice();
    // 2,200.00 less 2 % settles the first invoice; the second, 2,000.00, is due on 6 November.
    await recordPayment(seller, {
      agreementId,
      direction: 'received',
      payment: { amount: '2156', paid_on: '2026-11-01', method: 'check' },
      confirmed: true,
    });
    world.on('2026-12-06');
    const { statement, points } = await readClose(buyer, { agreementId });
    expect(statement.money).toEqual({
      settled: '4200.00',
      invoiced: '4200.00',
      paid: '2156.00',
      discounts: '44.00',
      balance: '2000.00',
    });
    // 2,000.00 × 30 days × 12 % ÷ 365 = 19.726.
    expect(points).toEqual([
      { kind: 'interest', count: 1, amount: '19.73' },
      { kind: 'balance', count: 1, amount: '2000.00' },
    ]);
    await expect(
      proposeClose(seller, { agreementId, carriesOver: false, name: 'Wren Alder' }),
    ).rejects.toThrow(/Interest of 19\.73 USD is not charged yet/);
  });

  test('has a new statement once something is recorded after the first', async () => {
    const world = await season(true);
    const { agreementId, seller, buyer } = world;
    const first = await proposeClose(seller, { agreementId, carriesOver: false, name: 'Wren Alder' });
    await recordLoads(seller, load(agreementId, 'T3'));
    expect((await readClose(buyer, { agreementId })).drawn?.isStale).toBe(true);
    expect(await refused(signClose(buyer, { ...first, name: 'Juniper Marsh' }))).toBe('changed-meanwhile');
    // The database holds the same.
    await expect(
      record.tools.store.forParty(buyer.caller.partyId, (tx) =>
        tx.$executeRawUnsafe(
          `INSERT INTO season_signature VALUES ($1::uuid, $2::uuid, $3::uuid, 'X', $4, now(), $5::uuid)`,
          agreementId,
          first.closeId,
          buyer.caller.partyId,
          first.fingerprint,
          buyer.caller.personId,
        ),
      ),
    ).rejects.toThrow(/has gone on/);
    const second = await proposeClose(buyer, { agreementId, carriesOver: true, name: 'Juniper Marsh' });
    expect(await refused(signClose(seller, { ...first, name: 'Wren Alder' }))).toBe('changed-meanwhile');
    await signClose(seller, { ...second, name: 'Wren Alder' });
    expect((await readClose(seller, { agreementId })).statement.carried).toEqual([
      { kind: 'unsettled', count: '1', words: 'One load has not settled', amount: null },
    ]);
  });

  test('waits for the other side’s signature while its statement can be signed', async () => {
    const world = await season(true);
    const { agreementId, seller, buyer } = world;
    expect(await asked(buyer)).toEqual([]);
    world.on('2026-11-26');
    await proposeClose(seller, { agreementId, carriesOver: false, name: 'Wren Alder' });
    const waits = {
      words: expect.stringMatching(
        /^Quillback Acres \d+ has drawn up and signed the closing statement of agreement M-\d+\. Read it, and sign it or say what is missing\.$/,
      ),
      path: `/agreements/${agreementId}/season-close`,
      since: expect.stringMatching(/^2026-11-26T18:00:00\.\d{3}Z$/),
    };
    expect([await asked(seller), await asked(buyer)]).toEqual([[], [waits]]);
    // A load more, and that statement can no longer be signed.
    await recordLoads(seller, load(agreementId, 'T3'));
    expect([await asked(seller), await asked(buyer)]).toEqual([[], []]);
    const second = await proposeClose(buyer, { agreementId, carriesOver: true, name: 'Juniper Marsh' });
    expect([(await asked(seller)).length, await asked(buyer)]).toEqual([1, []]);
    await signClose(seller, { ...second, name: 'Wren Alder' });
    expect([await asked(seller), await asked(buyer)]).toEqual([[], []]);
  });

  test('is closed by its two parties’ owners alone', async () => {
    const { agreementId, seller } = await season(true);
    const stranger: Context = { ...seller, caller: await newParty(record.tools, 'Fernway Orchards') };
    expect(await refused(readClose(stranger, { agreementId }))).toBe('not-found');
    const clerk: Context = { ...seller, caller: { ...seller.caller, role: 'bookkeeper' } };
    expect(await refused(proposeClose(clerk, { agreementId, carriesOver: true, name: 'X' }))).toBe(
      'not-allowed',
    );
  });

  test('that both sign at once, or that one enters while the other signs, ends as one', async () => {
    const world = await season(true);
    const { agreementId, seller, buyer } = world;
    const { closeId, fingerprint } = await proposeClose(seller, {
      agreementId,
      carriesOver: false,
      name: 'Wren Alder',
    });
    const tried = await Promise.allSettled([
      signClose(buyer, { closeId, fingerprint, name: 'Juniper Marsh' }),
      recordLoads(seller, load(agreementId, 'T3')),
      signClose(buyer, { closeId, fingerprint, name: 'Juniper Marsh' }),
    ]);
    const sealed = (await readClose(seller, { agreementId })).seal;
    const entries = (await documents(world)).map((document) => Buffer.from(document));
    // Either it is sealed over all that was entered, or the load came first and it is not.
    expect(sealed === undefined ? tried[1].status : merkleRoot(entries)).toBe(sealed?.root ?? 'fulfilled');
    expect((await verifyRecord(record.tools, { agreementId })).faults).toEqual([]);
  });
});
