/**
 * A party's own list of payments: brought, kept for that party alone, and matched with the payments that count.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Context } from '../../src/usecases/context.ts';
import { recordPayment } from '../../src/usecases/money/record-payment.ts';
import { keepOwnList } from '../../src/usecases/season-close/keep-own-list.ts';
import { matchOwnList } from '../../src/usecases/season-close/open-own-list.ts';
import { readMatching } from '../../src/usecases/season-close/read-matching.ts';
import { readPaymentMatching } from '../../src/usecases/season-close/read-payment-matching.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';
import { refused } from './refused.ts';

let record: TestRecord;
let world: MoneyWorld;
beforeAll(async () => {
  record = await openTestRecord();
  world = await moneyWorld(record);
  // 100.00 a short ton as delivered: 4,200.00 is invoiced.
  await world.deliver({ T1: '10', T2: '12', T3: '11', T4: '9' }, '2026-11-20');
  await world.invoice();
  const { agreementId, seller, buyer } = world;
  const pay = (by: Context, amount: string, reference: string, paid_on: string) =>
    recordPayment(by, {
      agreementId,
      direction: by === buyer ? 'paid' : 'received',
      payment: { amount, paid_on, method: 'check', reference },
      confirmed: true,
    });
  await pay(seller, '1000.00', '1043', '2026-11-21');
  await pay(seller, '540.25', '1044', '2026-11-22');
  await pay(seller, '700.00', '1045', '2026-11-23');
  // Waits for the seller: it does not count yet.
  await pay(buyer, '99.00', '1046', '2026-11-24');
});
afterAll(() => record.close());

const bytes = (text: string) => new TextEncoder().encode(text);
const PAID = `Check no;Date;Amount;Method
1043;11/21/2026;"-$1,000.00";check
ck 1044;11/22/2026;($504.25);check
1047;11/24/2026;-88.00;check
Total;;-1592.25;
`;

async function keep(context: Context, text: string, columns?: object) {
  const { agreementId } = world;
  const file = { agreementId, bytes: bytes(text) };
  const { proposal } = await matchOwnList(context, { ...file, kind: 'own-payments' });
  const chosen = columns ? { columns, dateOrder: 'year-first' } : {};
  const match = { ...proposal, ...chosen, kind: 'own-payments', timeOffset: 'agreement' };
  return await keepOwnList(context, { ...file, fileName: 'checks.csv', match });
}

describe('an own list of payments', () => {
  test('is matched with what counts, whatever sign its books give to what was paid', async () => {
    const { agreementId, buyer } = world;
    expect(await keep(buyer, PAID)).toMatchObject({
      rows: 3,
      left: [{ line: 5, wrong: 'has no day of payment' }],
      isMinusUsual: true,
    });
    const found = await readPaymentMatching(buyer, { agreementId });
    expect(found).toMatchObject({
      fileName: 'checks.csv',
      side: 'buyer',
      currency: 'USD',
      ownRows: 3,
      recordRows: 3,
      counts: {
        agrees: 1,
        'amount-differs': 1,
        'date-differs': 0,
        'only-in-mine': 1,
        'only-in-record': 1,
        twice: 0,
      },
      open: [
        {
          kind: 'pair',
          by: 'reference',
          differences: [{ aspect: 'amount', by: '-36.00', causes: [{ name: 'digits-transposed' }] }],
        },
        { kind: 'only', in: 'mine', row: { reference: '1047', amount: '88.00' } },
        { kind: 'only', in: 'record', row: { reference: '1045', amount: '700.00' } },
      ],
    });
  });

  test('stands beside the list of loads, and takes nothing from it', async () => {
    expect(await readMatching(world.buyer, { agreementId: world.agreementId })).toBeUndefined();
  });

  test('is never seen by the other side', async () => {
    const { agreementId, seller, buyer } = world;
    expect(await readPaymentMatching(seller, { agreementId })).toBeUndefined();
    const again = await matchOwnList(seller, { agreementId, bytes: bytes(PAID), kind: 'own-payments' });
    expect(again.isRemembered).toBe(false);
    const rows = await record.tools.store.forParty(seller.caller.partyId, (tx) =>
      tx.$queryRawUnsafe<unknown[]>('SELECT 1 FROM own_list UNION ALL SELECT 1 FROM kept_match'),
    );
    expect(rows).toEqual([]);
    const stranger: Context = { ...buyer, caller: await newParty(record.tools, 'Fernway Orchards') };
    expect(await refused(readPaymentMatching(stranger, { agreementId }))).toBe('not-found');
  });

  test('of a seller says what was received', async () => {
    const { agreementId, seller } = world;
    await keep(
      seller,
      'Date,Sum,Ref,Direction\n2026-11-21,1000,1043,received\n2026-11-22,540.25,,in\n2026-11-23,700.00,,paid\n',
    );
    const found = await readPaymentMatching(seller, { agreementId });
    expect(found?.counts).toMatchObject({ agrees: 2, 'amount-differs': 1 });
    expect(found).toMatchObject({
      side: 'seller',
      open: [{ differences: [{ by: '-1400.00', causes: [{ name: 'sign-turned' }] }] }],
    });
  });

  test('says what to do where it cannot be read', async () => {
    await expect(
      keep(world.buyer, 'Date,Amount\n2026-11-21,none\n', { date: { column: 0 }, amount: { column: 1 } }),
    ).rejects.toThrow(/no row that can be read; line 2 has an amount that is no number/);
    await expect(keep(world.buyer, 'Date,Amount,Direction\n2026-11-21,5,north\n')).rejects.toThrow(
      /has the direction "north"; write paid or received/,
    );
    await expect(keep(world.buyer, 'Date,Amount\n2026-11-21,5.005\n')).rejects.toThrow(
      /an amount with more than 2 decimals: 5.005/,
    );
    await expect(keep(world.buyer, 'Date,Note\n2026-11-21,5\n')).rejects.toThrow(/choose its column/);
  });
});

test('the database takes no list of another kind', async () => {
  const { agreementId, buyer } = world;
  const insert = `INSERT INTO own_list VALUES ($1::uuid, gen_random_uuid(), $2::uuid, 'x', '[]', 0, now(), $3::uuid, 'x')`;
  const { partyId, personId } = buyer.caller;
  await expect(
    record.tools.store.forParty(partyId, (tx) =>
      tx.$executeRawUnsafe(insert, agreementId, partyId, personId),
    ),
  ).rejects.toThrow(/own_list_kind/);
});
