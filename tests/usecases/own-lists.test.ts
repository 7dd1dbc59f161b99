/**
 * A party's own list: brought, read by a match that is remembered, kept for that party alone, and matched with the record.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Context } from '../../src/usecases/context.ts';
import { keepOwnList } from '../../src/usecases/season-close/keep-own-list.ts';
import { matchOwnList } from '../../src/usecases/season-close/open-own-list.ts';
import { readMatching } from '../../src/usecases/season-close/read-matching.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';
import { refused } from './refused.ts';

let record: TestRecord;
let world: MoneyWorld;
beforeAll(async () => {
  record = await openTestRecord();
  world = await moneyWorld(record);
  // 100.00 a short ton as delivered.
  await world.deliver({ T1: '10', T2: '12', T3: '11' }, '2026-11-20');
  await world.deliver({ T4: '9' }, '2026-11-21');
});
afterAll(() => record.close());

const BOOKS = `Tkt No.;Day;Net lbs;Dollars
T 1;11/20/2026;20,000;1,000.00
t-2;11/20/2026;42,000;1,200.00
T3;11/20/2026;22,000;1,010.00
T9;11/22/2026;18,400;920.00
Sum;;;4,130.00
`;
const bytes = (text: string) => new TextEncoder().encode(text);

describe('an own list', () => {
  test('is proposed a match by its header, and the one that was used is remembered', async () => {
    const { agreementId, buyer } = world;
    const file = { agreementId, bytes: bytes(BOOKS) };
    const proposed = await matchOwnList(buyer, file);
    expect(proposed).toMatchObject({
      isRemembered: false,
      rowCount: 5,
      proposal: {
        dateOrder: 'month-first',
        columns: { ticket: { column: 0 }, date: { column: 1 }, net: { column: 2 }, amount: { column: 3 } },
      },
    });
    const match = {
      kind: 'own-loads',
      columns: { ...proposed.proposal.columns, unit: { constant: 'lb' } },
      dateOrder: 'month-first',
      decimalMark: '.',
      timeOffset: 'agreement',
    };
    expect(await readMatching(buyer, { agreementId })).toBeUndefined();
    const kept = await keepOwnList(buyer, { ...file, fileName: 'dairy book.csv', match });
    expect(kept).toMatchObject({ rows: 4, left: [{ line: 6 }] });
    expect(await matchOwnList(buyer, file)).toMatchObject({ isRemembered: true, proposal: match });
    // What one side remembers is no business of the other's.
    expect(await matchOwnList(world.seller, file)).toMatchObject({ isRemembered: false });
  });

  test('is matched with the record: each row ends as one thing, with its cause', async () => {
    const { agreementId, buyer } = world;
    const found = await readMatching(buyer, { agreementId });
    expect(found).toMatchObject({ fileName: 'dairy book.csv', ownRows: 4, recordRows: 4 });
    expect(found?.counts).toEqual({
      agrees: 1,
      'weight-differs': 1,
      'date-differs': 0,
      'amount-differs': 1,
      'test-differs': 0,
      'ticket-differs': 0,
      'only-in-mine': 1,
      'only-in-record': 1,
      twice: 0,
    });
    const [weight, amount, mine, theirs] = found?.open ?? [];
    // 42,000 for 24,000: the digits stand the other way round.
    expect(weight).toMatchObject({
      kind: 'pair',
      differences: [{ aspect: 'weight', by: '18000', causes: [{ name: 'digits-transposed' }] }],
    });
    expect(amount).toMatchObject({ kind: 'pair', differences: [{ aspect: 'amount', by: '-90.00' }] });
    expect(mine).toMatchObject({ kind: 'only', in: 'mine', row: { ticket: 'T9' } });
    expect(theirs).toMatchObject({ kind: 'only', in: 'record', row: { ticket: 'T4' } });
  });

  test('is the alone of whoever brought it', async () => {
    const { agreementId, seller, buyer } = world;
    expect(await readMatching(seller, { agreementId })).toBeUndefined();
    const stranger: Context = { ...buyer, caller: await newParty(record.tools, 'Fernway Orchards') };
    expect(await refused(readMatching(stranger, { agreementId }))).toBe('not-found');
    const viewer: Context = { ...buyer, caller: { ...buyer.caller, role: 'viewer' } };
    expect(await refused(matchOwnList(viewer, { agreementId, bytes: bytes(BOOKS) }))).toBe('not-allowed');
    const rows = await record.tools.store.forParty(seller.caller.partyId, (tx) =>
      tx.$queryRawUnsafe<unknown[]>('SELECT 1 FROM own_list UNION ALL SELECT 1 FROM kept_match'),
    );
    expect(rows).toEqual([]);
  });

  test('says what keeps a file from being read', async () => {
    const { agreementId, buyer } = world;
    const match = {
      kind: 'own-loads',
      columns: {},
      dateOrder: 'year-first',
      decimalMark: '.',
      timeOffset: 'agreement',
    };
    const keep = (text: string, columns: object) =>
      keepOwnList(buyer, {
        agreementId,
        bytes: bytes(text),
        fileName: 'x.csv',
        match: { ...match, columns },
      });
    expect(await refused(keep(BOOKS, {}))).toBe('bad-input');
    expect(await refused(keep('', {}))).toBe('bad-input');
    const none = { date: { column: 0 }, net: { column: 1 }, unit: { constant: 'lb' } };
    await expect(keep('day,net\n2026-11-20,none\n', none)).rejects.toThrow(/no row that can be read; line 2/);
    expect(
      await refused(
        keepOwnList(buyer, {
          agreementId,
          bytes: bytes(BOOKS),
          fileName: 'x',
          match: { ...match, kind: 'tickets' },
        }),
      ),
    ).toBe('bad-input');
  });
});

test('the database keeps a list as it came, for its party alone', async () => {
  const { agreementId, seller, buyer } = world;
  const as = (context: Context, sql: string, ...values: unknown[]) =>
    record.tools.store.forParty(context.caller.partyId, (tx) => tx.$executeRawUnsafe(sql, ...values));
  await expect(as(buyer, 'UPDATE own_list SET row_count = 0')).rejects.toThrow(/permission denied/);
  await expect(as(buyer, 'DELETE FROM own_list')).rejects.toThrow(/permission denied/);
  const insert = `INSERT INTO own_list VALUES ($1::uuid, gen_random_uuid(), $2::uuid, 'x', '[]', 0, now(), $3::uuid)`;
  // In the other side's name, and for an agreement of others.
  await expect(as(seller, insert, agreementId, buyer.caller.partyId, seller.caller.personId)).rejects.toThrow(
    /row-level security/,
  );
  const stranger = await newParty(record.tools, 'Sorrel Bend Dairy');
  await expect(
    as({ ...buyer, caller: stranger }, insert, agreementId, stranger.partyId, stranger.personId),
  ).rejects.toThrow(/row-level security/);
  const client = await record.superuser();
  await expect(client.query('UPDATE own_list SET row_count = 0')).rejects.toThrow();
  await client.end();
});
