/**
 * One party's lists against the other's: seen and matched while both agree to it, and by nobody else ever.
 */
import { v7 } from 'uuid';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Context } from '../../src/usecases/context.ts';
import { readNotices } from '../../src/usecases/notices/read-notices.ts';
import { proposeClose, signClose } from '../../src/usecases/season-close/close-season.ts';
import { consentToLists } from '../../src/usecases/season-close/consent-to-lists.ts';
import { keepOwnList } from '../../src/usecases/season-close/keep-own-list.ts';
import { matchOwnList } from '../../src/usecases/season-close/open-own-list.ts';
import { readListsCompared } from '../../src/usecases/season-close/read-lists-compared.ts';
import { readMatching } from '../../src/usecases/season-close/read-matching.ts';
import { acceptShare } from '../../src/usecases/sharing/accept-share.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';
import { refused } from './refused.ts';

let record: TestRecord;
let world: MoneyWorld;
beforeAll(async () => {
  record = await openTestRecord();
  world = await moneyWorld(record);
});
afterAll(() => record.close());

type OwnKind = 'own-loads' | 'own-payments';

/** Brings a CSV list as an office would, its columns matched by its header. */
async function bring(context: Context, kind: OwnKind, text: string, { agreementId } = world) {
  const file = { agreementId, bytes: new TextEncoder().encode(text) };
  const { proposal } = await matchOwnList(context, { ...file, kind });
  const columns = { ...proposal.columns, ...(kind === 'own-loads' ? { unit: { constant: 'lb' } } : {}) };
  const match = { ...proposal, kind, columns, dateOrder: 'year-first', timeOffset: 'agreement' };
  const fileName = `${kind}.csv`;
  return await keepOwnList(context, { ...file, fileName, match: { ...match, decimalMark: '.' } });
}

const say = (context: Context, word: 'given' | 'withdrawn', { agreementId } = world) =>
  consentToLists(context, { agreementId, word });
const compared = (context: Context) => readListsCompared(context, { agreementId: world.agreementId });

/** What raw SQL finds as the program's own role: whose lists there are, and of which kind. */
async function listsSeen({ partyId }: Context['caller']): Promise<string[]> {
  const rows = await record.tools.store.forParty(partyId, (tx) =>
    tx.$queryRawUnsafe<{ party: string; kind: string; file: string }[]>(
      'SELECT party_id AS party, kind, rows FROM own_list ORDER BY kind, party_id',
    ),
  );
  return rows.map(({ party, kind }) => `${kind} of ${nameOf(party)}`).sort();
}
const nameOf = (partyId: string) =>
  partyId === world.seller.caller.partyId ? 'seller' : partyId === world.buyer.caller.partyId ? 'buyer' : '?';

const LOADS = (t2: string) => `Ticket,Date,Net,Amount
T1,2026-11-20,20000,1000.00
T2,2026-11-20,${t2}
T3,2026-11-20,22000,1100.00
`;
const ALL = ['own-loads of buyer', 'own-loads of seller', 'own-payments of buyer', 'own-payments of seller'];

describe('two lists', () => {
  test('are each its party’s alone until both agree', async () => {
    const { seller, buyer } = world;
    expect(await bring(seller, 'own-loads', LOADS('24000,1200.00'))).toMatchObject({ isShared: false });
    await bring(buyer, 'own-loads', LOADS('42000,1200.00'));
    // A seller's books say what came in; a buyer's bank says what went out with a minus.
    await bring(
      seller,
      'own-payments',
      'Date,Amount,Ref,Direction\n2026-11-21,1000.00,1043,received\n2026-11-22,540.25,1044,received\n2026-11-23,80.00,1045,paid\n',
    );
    await bring(
      buyer,
      'own-payments',
      'Check no,Date,Amount\n1043,2026-11-21,-1000.00\n1044,2026-11-22,-504.25\n1045,2026-11-23,80.00\n1046,2026-11-24,-5.00\n',
    );
    const own = (side: string) => [`own-loads of ${side}`, `own-payments of ${side}`];
    expect(await listsSeen(seller.caller)).toEqual(own('seller'));
    expect(await listsSeen(buyer.caller)).toEqual(own('buyer'));
    expect(await compared(seller)).toEqual({
      partner: expect.stringContaining('Tarn Hollow'),
      side: 'seller',
    });

    expect(await say(seller, 'given')).toEqual({ areShared: false });
    expect(await listsSeen(seller.caller)).toEqual(own('seller'));
    expect(await listsSeen(buyer.caller)).toEqual(own('buyer'));
    const oneSided = await compared(buyer);
    expect(oneSided).toMatchObject({ side: 'buyer', theirWord: { word: 'given' } });
    expect(oneSided.lists).toBeUndefined();
    expect(oneSided.ourWord).toBeUndefined();
  });

  test('are matched once both agree: a planted difference has one size from both sides', async () => {
    const { seller, buyer } = world;
    expect(await say(buyer, 'given')).toEqual({ areShared: true });
    expect(await listsSeen(seller.caller)).toEqual(ALL);
    expect(await listsSeen(buyer.caller)).toEqual(ALL);
    const [ours, theirs] = [await compared(seller), await compared(buyer)];
    const counts = { agrees: 2, 'weight-differs': 1, 'only-in-mine': 0, 'only-in-record': 0 };
    expect(ours.lists?.loads).toMatchObject({
      ours: { fileName: 'own-loads.csv' },
      theirs: { fileName: 'own-loads.csv' },
      matching: { ownRows: 3, recordRows: 3, currency: 'USD', counts },
    });
    // 24,000 and 42,000: line 3 of both lists.
    expect(ours.lists?.loads.matching?.open).toMatchObject([
      {
        kind: 'pair',
        mine: { id: '3', net: '24000' },
        record: { id: '3', net: '42000' },
        differences: [
          {
            aspect: 'weight',
            by: '-18000',
            causes: [{ name: 'digits-transposed', slips: [{ by: 'either' }] }],
          },
        ],
      },
    ]);
    expect(theirs.lists?.loads.matching).toMatchObject({
      counts,
      open: [{ mine: { net: '42000' }, record: { net: '24000' }, differences: [{ by: '18000' }] }],
    });
  });

  test('of payments agree where one says received and the other paid', async () => {
    const [ours, theirs] = [await compared(world.seller), await compared(world.buyer)];
    expect(ours.lists?.payments.matching).toMatchObject({
      counts: { agrees: 2, 'amount-differs': 1, 'only-in-mine': 0, 'only-in-record': 1, twice: 0 },
      open: [
        { kind: 'pair', differences: [{ aspect: 'amount', by: '36.00' }] },
        { kind: 'only', in: 'record', row: { reference: '1046', amount: '5.00' } },
      ],
    });
    expect(theirs.lists?.payments.matching).toMatchObject({
      counts: { agrees: 2, 'amount-differs': 1, 'only-in-mine': 1, 'only-in-record': 0, twice: 0 },
      open: [{ differences: [{ by: '-36.00' }] }, { in: 'mine', row: { reference: '1046' } }],
    });
  });

  test('that are equal agree, and only the newest of a kind is seen by the other side', async () => {
    const { seller, buyer } = world;
    expect(await bring(buyer, 'own-loads', LOADS('24000,1200.00'))).toMatchObject({ isShared: true });
    const { lists } = await compared(seller);
    expect(lists?.loads.matching).toMatchObject({ counts: { agrees: 3 }, open: [] });
    // The first list, with its slip, is its office's alone.
    expect(await listsSeen(seller.caller)).toEqual(ALL);
    expect(await listsSeen(buyer.caller)).toEqual(['own-loads of buyer', ...ALL]);
    // Matching with the record still takes one's own, although the other side's is the newer one.
    const own = await readMatching(seller, { agreementId: world.agreementId });
    expect(own).toMatchObject({ ownRows: 3, broughtAt: lists?.loads.ours?.broughtAt });
    expect(lists?.loads.ours?.broughtAt).not.toBe(lists?.loads.theirs?.broughtAt);
  });

  test('are there for nobody else: no stranger, no adviser of either side', async () => {
    const { agreementId, buyer } = world;
    const stranger: Context = { ...buyer, caller: await newParty(record.tools, 'Fernway Orchards') };
    const adviser: Context = { ...buyer, caller: await newParty(record.tools, 'Marl Gate Nutrition') };
    const { secret } = await askAdviser(buyer, { agreementId });
    await acceptShare(adviser, { secret });
    for (const [who, code] of [
      [stranger, 'not-found'],
      [adviser, 'not-yours'],
    ] as const) {
      expect(await refused(compared(who))).toBe(code);
      expect(await refused(say(who, 'given'))).toBe(code);
      expect(await listsSeen(who.caller)).toEqual([]);
      const words = await record.tools.store.forParty(who.caller.partyId, (tx) =>
        tx.$queryRawUnsafe<unknown[]>('SELECT 1 FROM list_consent'),
      );
      expect(words).toEqual([]);
    }
    const viewer: Context = { ...buyer, caller: { ...buyer.caller, role: 'viewer' } };
    expect(await refused(say(viewer, 'withdrawn'))).toBe('not-allowed');
    expect((await compared(viewer)).lists?.loads.matching?.counts.agrees).toBe(3);
  });

  test('are each its party’s alone again from a withdrawal on', async () => {
    const { seller, buyer } = world;
    expect(await say(seller, 'withdrawn')).toEqual({ areShared: false });
    expect(await listsSeen(seller.caller)).toEqual(['own-loads of seller', 'own-payments of seller']);
    expect(await listsSeen(buyer.caller)).toEqual([
      'own-loads of buyer',
      'own-loads of buyer',
      'own-payments of buyer',
    ]);
    const view = await compared(buyer);
    expect(view).toMatchObject({ ourWord: { word: 'given' }, theirWord: { word: 'withdrawn' } });
    expect(view.lists).toBeUndefined();
    // Nobody lifts a withdrawal for the other side by saying again what stands.
    expect(await say(buyer, 'given')).toEqual({ areShared: false });
    expect(await say(seller, 'given')).toEqual({ areShared: true });
    expect(await say(buyer, 'withdrawn')).toEqual({ areShared: false });
    expect(await listsSeen(seller.caller)).toEqual(['own-loads of seller', 'own-payments of seller']);
  });
});

test('each change of mind is told to the other side once, and nothing where the word stands', async () => {
  const world = await moneyWorld(record);
  const { agreementId, seller, buyer } = world;
  await say(seller, 'withdrawn', world);
  await say(seller, 'given', world);
  await say(seller, 'given', world);
  await consentToLists(seller, { agreementId, word: 'withdrawn', key: 'k' });
  await consentToLists(seller, { agreementId, word: 'withdrawn', key: 'k' });
  const told = async (who: Context) =>
    (await readNotices(who)).unseen.map(({ words, path }) => [words, path]);
  const at = `/agreements/${agreementId}/own-list`;
  const from = expect.stringMatching(
    /^Quillback Acres \d+ (no longer )?agrees that you see each other’s lists/,
  );
  expect(await told(buyer)).toEqual([
    [from, at],
    [from, at],
  ]);
  expect(await told(seller)).toEqual([]);
  expect(await refused(consentToLists(seller, { agreementId, word: 'given', key: 'k' }))).toBe('key-reused');
});

test('a sealed season takes a word still', async () => {
  const sealed = await moneyWorld(record);
  const { agreementId, seller, buyer } = sealed;
  await say(seller, 'given', sealed);
  await say(buyer, 'given', sealed);
  const { closeId, fingerprint } = await proposeClose(seller, {
    agreementId,
    carriesOver: true,
    name: 'Wren Alder',
  });
  await signClose(buyer, { closeId, fingerprint, name: 'Juniper Marsh' });
  expect(await say(buyer, 'withdrawn', sealed)).toEqual({ areShared: false });
  expect((await readListsCompared(seller, { agreementId })).lists).toBeUndefined();
});

test('the database keeps each word, in its turn, by its own party', async () => {
  const { agreementId, seller, buyer } = await moneyWorld(record);
  const as = ({ caller }: Context, sql: string, ...values: unknown[]) =>
    record.tools.store.forParty(caller.partyId, (tx) => tx.$executeRawUnsafe(sql, ...values));
  const insert = (by: Context, { party = by, version = 1, word = 'given' }) =>
    as(
      by,
      'INSERT INTO list_consent VALUES ($1::uuid, $2::uuid, $3::uuid, $4::int, $5, now(), $6::uuid)',
      ...[agreementId, v7(), party.caller.partyId, version, word, by.caller.personId],
    );
  // One side cannot say the other's word.
  await expect(insert(seller, { party: buyer })).rejects.toThrow(/row-level security/);
  const stranger = { ...buyer, caller: await newParty(record.tools, 'Sorrel Bend Dairy') };
  await expect(insert(stranger, {})).rejects.toThrow(/row-level security/);
  await expect(insert(seller, { word: 'withdrawn' })).rejects.toThrow(/list_consent_word/);
  await expect(insert(seller, { version: 3 })).rejects.toThrow(/follows the one before/);
  await insert(seller, {});
  await expect(insert(seller, {})).rejects.toThrow(/duplicate key|Unique constraint/);
  const client = await record.superuser();
  for (const sql of ["UPDATE list_consent SET word = 'given'", 'DELETE FROM list_consent']) {
    await expect(as(seller, sql)).rejects.toThrow(/permission denied/);
    await expect(client.query(sql)).rejects.toThrow(/written once/);
  }
  await expect(client.query('TRUNCATE list_consent')).rejects.toThrow(/written once/);
  await client.end();
});
