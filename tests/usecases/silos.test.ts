/**
 * A buyer's silos: what went in, was fed and was left; put right and taken back; the buyer's alone.
 */
import { v7 } from 'uuid';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Context } from '../../src/usecases/context.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { acceptShare } from '../../src/usecases/sharing/accept-share.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { correctSiloEntry, withdrawSiloEntry } from '../../src/usecases/storage/correct-entry.ts';
import { fillSilo } from '../../src/usecases/storage/fill-silo.ts';
import { openSilo } from '../../src/usecases/storage/open-silo.ts';
import { readSilos } from '../../src/usecases/storage/read-silos.ts';
import { recordFed } from '../../src/usecases/storage/record-fed.ts';
import { recordLeft } from '../../src/usecases/storage/record-left.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';
import { refused } from './refused.ts';

let record: TestRecord;
let world: MoneyWorld;
let bag: string;
beforeAll(async () => {
  record = await openTestRecord();
  world = await moneyWorld(record, { terms: { sampling: { plan: 'per-day' } } });
  const { agreementId, seller, buyer } = world;
  const result = (sample: string, dryMatter: string) => ({
    ...{ sample, basis: 'dry-matter', dry_matter: dryMatter },
  });
  await recordResults(seller, {
    agreementId,
    results: [result('2026-10-20', '60'), result('2026-10-21', '60')],
  });
  // 50 short tons at 60 %: 30 of dry matter.
  await world.deliver({ T1: '20', T2: '10' }, '2026-10-20');
  await world.deliver({ T3: '20', T4: '25' }, '2026-10-21');
  // No sample of this day.
  await world.deliver({ T5: '10' }, '2026-10-22');
  ({ siloId: bag } = await openSilo(buyer, { agreementId, silo: { name: 'North bag', kind: 'bag' } }));
});
afterAll(() => record.close());

const fed = (row: Readonly<Record<string, string>>, confirmed = false) =>
  recordFed(world.buyer, {
    agreementId: world.agreementId,
    siloId: bag,
    row: { unit: 'short-ton', dry_matter: '59', ...row },
    confirmed,
  });
const left = (row: Readonly<Record<string, string>>) =>
  recordLeft(world.buyer, { agreementId: world.agreementId, siloId: bag, row });
const fill = (siloId: string, row: Readonly<Record<string, string>>) =>
  fillSilo(world.buyer, { agreementId: world.agreementId, siloId, row });
const read = async () => await readSilos(world.buyer, { agreementId: world.agreementId });
const northBag = async () => (await read()).silos.find(({ siloId }) => siloId === bag);

describe('a silo', () => {
  test('takes loads of days, or some of their tickets, and none that is in another', async () => {
    const { agreementId, buyer } = world;
    expect(await northBag()).toMatchObject({ name: 'North bag', kind: 'bag', loads: 0, shrink: undefined });
    await fill(bag, { from: '2026-10-20', to: '2026-10-20' });
    const filled = await fill(bag, { from: '2026-10-21', to: '2026-10-21', tickets: 'T3' });
    const { siloId: pile } = await openSilo(buyer, { agreementId, silo: { name: 'Pile', kind: 'pile' } });
    const twice = fill(pile, { from: '2026-10-21', to: '2026-10-21' });
    await expect(twice).rejects.toThrow(/T3 went into North bag \(2026-10-21 to 2026-10-21\)/);
    await fill(pile, { from: '2026-10-21', to: '2026-10-22', tickets: 'T4; T5' });
    await expect(fill(pile, { from: '2026-10-20', to: '2026-10-20', tickets: 'T9' })).rejects.toThrow(
      /T9 is none of them/,
    );
    expect(await refused(fill(pile, { from: '2026-10-25', to: '2026-10-26' }))).toBe('bad-input');
    expect(await refused(fill(pile, { from: '2026-10-21', to: '2026-10-20' }))).toBe('bad-input');
    expect(await refused(openSilo(buyer, { agreementId, silo: { name: 'north BAG', kind: 'bag' } }))).toBe(
      'bad-input',
    );
    expect(await refused(openSilo(buyer, { agreementId, silo: { name: 'Pit', kind: 'pit' } }))).toBe(
      'bad-input',
    );
    expect(await refused(fill(v7(), { from: '2026-10-20', to: '2026-10-20' }))).toBe('not-found');
    const { silos, delivered } = await read();
    expect(delivered).toEqual({ from: '2026-10-20', to: '2026-10-22' });
    expect(silos).toMatchObject([
      { siloId: bag, loads: 3, delivered: '30.00', unit: 'short-ton' },
      {
        siloId: pile,
        loads: 2,
        delivered: '15.00',
        lacks: [{ why: 'no-dry-matter', tickets: ['T5'] }, { why: 'nothing-left-measured' }],
      },
    ]);
    expect(silos[0]?.entries[1]).toMatchObject({ entryId: filled.entryId, content: { tickets: 'T3' } });
  });

  test('is only not accounted for yet until what is left is measured', async () => {
    await fed({ from: '2026-11-01', to: '2026-11-15', weight: '30' });
    await fed({ from: '2026-11-16', weight: '10' });
    // 40 × 59 % = 23.6 of 30.
    expect(await northBag()).toMatchObject({
      fed: '23.60',
      notAccounted: '6.40',
      shrink: undefined,
      lacks: [{ why: 'nothing-left-measured' }],
    });
    // 200 cubic feet at 50 lb and 60 % are 6,000 lb, 3 short tons; 3.4 of 30 are gone.
    await left({
      on: '2026-11-20',
      how: 'measured',
      volume: '200',
      density: '50',
      measures: 'feet',
      dry_matter: '60',
    });
    expect(await northBag()).toMatchObject({ left: '3.00', notAccounted: '3.40', shrink: '11.3', lacks: [] });
    expect((await northBag())?.published.map(({ standing }) => standing)).toEqual([
      'within',
      'above',
      'within',
    ]);
  });

  test('asks about figures that are hardly right, and says what a bad one should be', async () => {
    expect(await refused(fed({ from: '2026-11-10', weight: '1' }))).toBe('unusual');
    expect(await refused(fed({ from: '2026-10-01', weight: '1' }))).toBe('unusual');
    expect(await refused(fed({ from: '2026-11-17', weight: '1', dry_matter: '0.6' }))).toBe('unusual');
    expect(await refused(fed({ from: '2026-12-17', weight: '1' }))).toBe('bad-input');
    await expect(fed({ from: '2026-11-17', weight: '1', dry_matter: '' })).rejects.toThrow(
      /dry_matter must be given/,
    );
    await expect(fed({ from: '2026-11-17', weight: '0' })).rejects.toThrow(/weight must be above 0/);
    const measured = { on: '2026-11-21', how: 'measured', volume: '2', measures: 'metres', dry_matter: '60' };
    expect(await refused(left({ ...measured, density: '45' }))).toBe('unusual');
    expect(await refused(left({ ...measured, density: '720', weight: '3' }))).toBe('bad-input');
    expect(await refused(left({ on: '2026-11-21', how: 'empty', weight: '3' }))).toBe('bad-input');
    expect(await refused(left({ on: '2026-11-21', how: 'weighed', unit: 'lb' }))).toBe('bad-input');
    expect((await northBag())?.entries).toHaveLength(5);
  });

  test('says plainly when more came out than went in, and is put right with a reason', async () => {
    const { agreementId, buyer } = world;
    const { entryId } = await fed({ from: '2026-11-18', weight: '100' });
    expect(await northBag()).toMatchObject({ isBelowZero: true, notAccounted: '-55.60', shrink: '-185.3' });
    const row = { from: '2026-11-18', weight: '1', unit: 'short-ton', dry_matter: '59' };
    const right = { agreementId, entryId, baseVersion: 1, row, reason: 'A slip of the comma' };
    expect(await refused(correctSiloEntry(buyer, { ...right, reason: ' ' }))).toBe('bad-input');
    expect(await correctSiloEntry(buyer, right)).toEqual({ version: 2 });
    expect(await refused(correctSiloEntry(buyer, right))).toBe('changed-meanwhile');
    expect(await northBag()).toMatchObject({ isBelowZero: false, notAccounted: '2.81', shrink: '9.4' });
    const away = { agreementId, entryId, baseVersion: 2, reason: 'It was from the pile' };
    expect(await withdrawSiloEntry(buyer, away)).toEqual({ version: 3 });
    expect(await refused(withdrawSiloEntry(buyer, { ...away, baseVersion: 3 }))).toBe('not-found');
    expect(await northBag()).toMatchObject({ notAccounted: '3.40', shrink: '11.3' });
  });

  test('that is taken back gives up its loads, and its name', async () => {
    const { agreementId, buyer } = world;
    const { siloId } = await openSilo(buyer, { agreementId, silo: { name: 'Wrong', kind: 'tower' } });
    const row = { from: '2026-10-20', to: '2026-10-21' };
    expect(await refused(fill(siloId, row))).toBe('bad-input');
    await withdrawSiloEntry(buyer, { agreementId, entryId: bag, baseVersion: 1, reason: 'Opened twice' });
    expect(await refused(fill(siloId, { ...row, tickets: 'T1, T2, T3' }))).toBe('done');
    const rename = { agreementId, entryId: siloId, baseVersion: 1, reason: 'Its name' };
    await correctSiloEntry(buyer, { ...rename, row: { name: 'North bag', kind: 'bag' } });
    expect((await read()).silos.map(({ name, loads }) => [name, loads])).toEqual([
      ['Pile', 2],
      ['North bag', 3],
    ]);
  });
});

describe('what was stored', () => {
  test('is the buyer’s alone, and its office’s to write', async () => {
    const { agreementId, seller, buyer } = world;
    const silo = { name: 'Ours', kind: 'bag' };
    expect(await refused(readSilos(seller, { agreementId }))).toBe('not-yours');
    expect(await refused(openSilo(seller, { agreementId, silo }))).toBe('not-yours');
    const stranger: Context = { ...buyer, caller: await newParty(record.tools, 'Fernway Orchards') };
    expect(await refused(readSilos(stranger, { agreementId }))).toBe('not-found');
    const adviser: Context = { ...buyer, caller: await newParty(record.tools, 'Marl Gate Nutrition') };
    const { secret } = await askAdviser(buyer, { agreementId });
    await acceptShare(adviser, { secret });
    expect(await refused(readSilos(adviser, { agreementId }))).toBe('not-yours');
    for (const role of ['viewer', 'scale-operator'] as const) {
      const member: Context = { ...buyer, caller: { ...buyer.caller, role } };
      expect(await refused(openSilo(member, { agreementId, silo }))).toBe('not-allowed');
      expect(await refused(readSilos(member, { agreementId }))).toBe('done');
    }
    for (const caller of [seller.caller, stranger.caller, adviser.caller]) {
      const rows = await record.tools.store.forParty(caller.partyId, (tx) =>
        tx.$queryRawUnsafe<unknown[]>('SELECT 1 FROM silo UNION ALL SELECT 1 FROM silo_entry'),
      );
      expect(rows).toEqual([]);
    }
  });

  test('is held by the database: written once, in order, by the buyer, into its own silo', async () => {
    const { agreementId, seller, buyer } = world;
    const as = ({ caller }: Context, sql: string, ...values: unknown[]) =>
      record.tools.store.forParty(caller.partyId, (tx) => tx.$executeRawUnsafe(sql, ...values));
    const client = await record.superuser();
    for (const table of ['silo', 'silo_entry']) {
      for (const sql of [`UPDATE ${table} SET recorded_at = now()`, `DELETE FROM ${table}`]) {
        await expect(as(buyer, sql)).rejects.toThrow(/permission denied/);
        await expect(client.query(sql)).rejects.toThrow(/written once/);
      }
      await expect(client.query(`TRUNCATE ${table} CASCADE`)).rejects.toThrow(/written once/);
    }
    await client.end();
    const silo = 'INSERT INTO silo VALUES ($1::uuid, gen_random_uuid(), $2::uuid, now(), $2::uuid)';
    await expect(as(seller, silo, agreementId, seller.caller.partyId)).rejects.toThrow(/row-level security/);
    await expect(as(seller, silo, agreementId, buyer.caller.partyId)).rejects.toThrow(/row-level security/);
    const siloId = (await read()).silos[0]?.siloId;
    const tried = (
      { caller }: Context,
      { of = siloId, id = v7(), version = 1, kind = 'fed', reason = null as string | null },
    ) =>
      as(
        { ...buyer, caller },
        `INSERT INTO silo_entry VALUES ($1::uuid, $2::uuid, $3::uuid, $4::int, $5::uuid, $6, '{}', $7, now(), $5::uuid)`,
        ...[agreementId, of, id, version, caller.partyId, kind, reason],
      );
    await expect(tried(seller, {})).rejects.toThrow(/row-level security/);
    await expect(tried(buyer, { version: 2, reason: 'why' })).rejects.toThrow(/follows the one before/);
    await expect(tried(buyer, { reason: 'why' })).rejects.toThrow(/silo_entry_first/);
    await expect(tried(buyer, { kind: 'silo' })).rejects.toThrow(/silo_entry_kind/);
    // The silo that was taken back has a second version, without content.
    const after = { of: bag, id: bag, version: 3, kind: 'silo', reason: 'why' };
    await expect(tried(buyer, after)).rejects.toThrow(/follows the one before/);
  });
});
