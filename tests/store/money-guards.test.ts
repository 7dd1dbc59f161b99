/**
 * What the database itself holds of money, tried with raw SQL as the program's own role: nothing is changed, numbered out
 * of turn or paid above its amount, nobody speaks for the other side, and money is between the two parties alone. Each of
 * these fails if its guard is taken out.
 */
import type { Client } from 'pg';
import { v7 } from 'uuid';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { sha256 } from '../../src/journal/fingerprint.ts';
import type { Context } from '../../src/usecases/context.ts';
import { acceptShare } from '../../src/usecases/sharing/accept-share.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { type EveryMoneyRow, everyMoneyRow, MONEY_TABLES } from '../usecases/every-money-row.ts';
import { moneyWorld } from '../usecases/money-world.ts';
import { newParty, openTestRecord, type TestRecord } from './test-record.ts';

let record: TestRecord;
let client: Client;
let world: EveryMoneyRow;
let seller: Context;
let buyer: Context;
let stranger: Context;
let adviser: Context;

beforeAll(async () => {
  record = await openTestRecord();
  world = await everyMoneyRow(record);
  ({ seller, buyer } = world);
  const party = async (name: string) => ({ ...record.tools, caller: await newParty(record.tools, name) });
  stranger = await party('Sorrel Bend Dairy');
  adviser = await party('Row and Husk Advice');
  await acceptShare(adviser, await askAdviser(buyer, { agreementId: world.agreementId }));
  client = await record.superuser();
  for (const { caller } of [seller, buyer]) await as({ caller }, ACCOUNT, [caller.partyId]);
});
afterAll(async () => {
  await client.end();
  await record.close();
});

const ACCOUNT = `INSERT INTO payee_account (party_id, version, holder, kind, number, recorded_at, recorded_by)
  VALUES ($1, 1, 'Quillback Acres', 'other', '0042', now(), $1)`;

type Rows = readonly Record<string, unknown>[];

/** One statement in a transaction of its own, as the program's role for a party. */
async function as(
  { caller }: Pick<Context, 'caller'>,
  sql: string,
  values: readonly unknown[] = [],
): Promise<Rows> {
  await client.query('BEGIN');
  try {
    await client.query(
      "SELECT set_config('role', 'huskledger_app', true), set_config('app.party', $1, true)",
      [caller.partyId],
    );
    const { rows } = await client.query(sql, [...values]);
    await client.query('COMMIT');
    return rows;
  } catch (error) {
    await client.query('ROLLBACK');
    throw error;
  }
}

type Row = Readonly<Record<string, unknown>>;

/** Writes a row as a party; what every row about money has is filled in. */
async function write(who: Context, table: string, row: Row): Promise<Rows> {
  const stamped = { agreement_id: world.agreementId, ...row };
  const names = Object.keys(stamped);
  const places = names.map((_, index) => `$${index + 1}`);
  const sql = `INSERT INTO "${table}" (${names.join(', ')}) VALUES (${places.join(', ')})`;
  return await as(who, sql, Object.values(stamped));
}

const recorded = ({ caller }: Context) => ({
  id: v7(),
  by_party_id: caller.partyId,
  recorded_at: '2026-11-26T12:00:00Z',
  recorded_by: caller.personId,
});

const count = async (who: Context, table: string) =>
  (await as(who, `SELECT count(*)::int AS n FROM "${table}"`))[0]?.['n'];

describe('what is recorded of money', () => {
  test.each([...MONEY_TABLES, 'payee_account'])('%s: nobody changes or deletes it', async (table) => {
    const { rows } = await client.query<{ name: string }>(
      `SELECT column_name AS name FROM information_schema.columns WHERE table_name = $1 AND ordinal_position = 1`,
      [table],
    );
    const column = rows[0]?.name ?? '';
    for (const sql of [`DELETE FROM "${table}"`, `UPDATE "${table}" SET ${column} = ${column}`]) {
      for (const who of [seller, buyer]) await expect(as(who, sql), sql).rejects.toThrow(/permission denied/);
      await expect(client.query(sql), sql).rejects.toThrow(/written once/);
    }
    await expect(as(seller, `TRUNCATE "${table}"`)).rejects.toThrow(/permission denied/);
    await expect(client.query(`TRUNCATE "${table}" CASCADE`)).rejects.toThrow(/written once/);
  });

  test.each(MONEY_TABLES)('%s: both parties see it, a stranger and an adviser do not', async (table) => {
    expect(await count(seller, table)).toBeGreaterThan(0);
    expect(await count(buyer, table)).toBe(await count(seller, table));
    expect(await count(stranger, table)).toBe(0);
    expect(await count(adviser, table)).toBe(0);
  });

  test('an adviser sees the agreement whose money it does not see, in the journal neither', async () => {
    expect(await count(adviser, 'agreement')).toBe(1);
    expect(await count(stranger, 'agreement')).toBe(0);
    const kinds = await as(adviser, 'SELECT DISTINCT kind FROM journal_entry ORDER BY kind');
    expect(kinds.map(({ kind }) => kind)).toContain('load');
    expect(kinds.map(({ kind }) => kind)).not.toContain('document');
    const theirs = await as(seller, 'SELECT DISTINCT kind FROM journal_entry ORDER BY kind');
    expect(theirs.map(({ kind }) => kind)).toContain('document');
    for (const table of ['posting', 'account_balance']) {
      const accounts = await as(adviser, `SELECT DISTINCT account FROM ${table}`);
      expect(accounts.every(({ account }) => String(account).startsWith('feed-'))).toBe(true);
      expect(accounts.length).toBeGreaterThan(0);
    }
  });

  test('nobody pays but the two of an agreement', async () => {
    const [row] = await as(seller, 'SELECT * FROM payment LIMIT 1');
    const third = { ...row, id: v7(), payer_id: stranger.caller.partyId, by_party_id: seller.caller.partyId };
    await expect(write(seller, 'payment', third)).rejects.toThrow(/between the parties/);
  });

  test.each(MONEY_TABLES)('%s: neither of them writes it', async (table) => {
    const { rows } = await client.query<{ row: Row }>(`SELECT to_jsonb(t) AS row FROM "${table}" t LIMIT 1`);
    for (const who of [stranger, adviser]) {
      const own = rows[0]?.row ?? {};
      const named = 'by_party_id' in own ? { by_party_id: who.caller.partyId } : {};
      // What the other guards say of a copy does not come first: this row is kept from the table before.
      await client.query(`ALTER TABLE "${table}" DISABLE TRIGGER USER`);
      await expect(write(who, table, { ...own, ...named }), table).rejects.toThrow(/row-level security/);
      await client.query(`ALTER TABLE "${table}" ENABLE TRIGGER USER`);
    }
  });
});

describe('a document', () => {
  const TEXT = '{}';
  const document = (more: Row): Row => {
    const { id, recorded_at, recorded_by } = recorded(seller);
    return {
      ...{ id, seller_id: seller.caller.partyId, kind: 'invoice', issued_on: '2026-11-26' },
      ...{ due_on: '2026-11-26', currency: 'USD', payable: '10.00', document: TEXT },
      ...{ fingerprint: sha256(TEXT), recorded_at, recorded_by, ...more },
    };
  };
  const next = async (): Promise<number> => {
    const { rows } = await client.query<{ n: number }>(
      'SELECT max(serial) AS n FROM money_document WHERE seller_id = $1',
      [seller.caller.partyId],
    );
    return (rows[0]?.n ?? 0) + 1;
  };

  test('has the number that is next among those of its seller', async () => {
    const serial = await next();
    for (const wrong of [serial + 1, serial - 1, 0])
      await expect(write(seller, 'money_document', document({ serial: wrong }))).rejects.toThrow(
        /does not follow/,
      );
    const theirs = { serial: 1, seller_id: stranger.caller.partyId };
    await expect(write(seller, 'money_document', document(theirs))).rejects.toThrow(/its own seller/);
    await expect(as(stranger, 'SELECT next_document_serial($1)', [seller.caller.partyId])).rejects.toThrow(
      /numbered by the parties/,
    );
    await write(buyer, 'money_document', document({ serial }));
  });

  test('is of a known kind, with its sign, its text and a day that can be', async () => {
    const serial = await next();
    const wrongs: readonly (readonly [Row, RegExp])[] = [
      [{ kind: 'gift' }, /money_document_kind/],
      [{ kind: 'credit-note' }, /money_document_sign/],
      [{ kind: 'fee', payable: '-1' }, /money_document_sign/],
      [{ due_on: '2026-11-25' }, /money_document_due/],
      [{ document: '{ }' }, /money_document_fingerprint/],
      [{ corrects_id: v7() }, /foreign key/],
    ];
    for (const [wrong, why] of wrongs)
      await expect(write(seller, 'money_document', document({ serial, ...wrong }))).rejects.toThrow(why);
  });

  test('brings a settlement once', async () => {
    const [row] = await as(seller, 'SELECT * FROM document_load WHERE settlement_id IS NOT NULL LIMIT 1');
    const copy = { ...row, document_id: world.open.documentId, place: 7 };
    await expect(write(seller, 'document_load', copy)).rejects.toThrow(/duplicate key/);
  });

  test('is not settled above its amount, whatever settles it', async () => {
    const { documentId } = world.open;
    const [row] = await as(
      seller,
      `SELECT payable - (SELECT sum(amount + discount) FROM allocation WHERE document_id = d.id) AS open
       FROM money_document d WHERE id = $1`,
      [documentId],
    );
    const open = String(row?.['open']);
    // Any two documents serve as what settles it.
    const [first, second] = await as(seller, 'SELECT id FROM money_document ORDER BY serial LIMIT 2');
    const pay = (more: Row) =>
      write(seller, 'allocation', {
        ...{ source_id: first?.['id'], place: 7, document_id: documentId, amount: open, discount: '0' },
        ...more,
      });
    await expect(pay({ source_id: v7() })).rejects.toThrow(/no payment, set-off or note/);
    await expect(pay({ discount: '0.01' })).rejects.toThrow(/above its amount/);
    await expect(pay({ amount: '-1' })).rejects.toThrow(/allocation_amount/);
    await expect(pay({ amount: '0' })).rejects.toThrow(/allocation_amount/);
    await pay({});
    await expect(pay({ source_id: second?.['id'], amount: '0.01' })).rejects.toThrow(/above its amount/);
  });
});

describe('nobody speaks for the other side', () => {
  test('a payment is confirmed or contested by its payee, withdrawn by whoever recorded it', async () => {
    const answer = (who: Context, word: string) =>
      write(who, 'payment_answer', {
        ...{ ...recorded(who), payment_id: world.open.paymentId, answer: word },
        reason: word === 'contested' ? 'x' : null,
      });
    await expect(answer(buyer, 'confirmed')).rejects.toThrow(/does not answer for the payee/);
    await expect(answer(buyer, 'contested')).rejects.toThrow(/does not answer for the payee/);
    await expect(answer(seller, 'withdrawn')).rejects.toThrow(/recorded a payment withdraws it/);
    await expect(answer(seller, 'burnt')).rejects.toThrow(/payment_answer_word/);
    await answer(seller, 'contested');
    await expect(answer(seller, 'confirmed')).rejects.toThrow(/duplicate key/);
  });

  test('a payment comes back once it was confirmed, as its payee says', async () => {
    const back = (who: Context, paymentId: string) =>
      write(who, 'payment_reversal', {
        ...{ ...recorded(who), payment_id: paymentId, reversed_on: '2026-11-26', reason: 'No funds' },
      });
    await expect(back(seller, world.open.paymentId)).rejects.toThrow(/Only a confirmed payment/);
    await expect(back(buyer, world.confirmedId)).rejects.toThrow(/does not answer for the payee/);
    await back(seller, world.confirmedId);
    await expect(back(seller, world.confirmedId)).rejects.toThrow(/duplicate key/);
  });

  test('a set-off is confirmed or refused by the other side, withdrawn by its own', async () => {
    const answer = (who: Context, word: string) =>
      write(who, 'set_off_answer', { ...recorded(who), set_off_id: world.open.setOffId, answer: word });
    for (const word of ['confirmed', 'refused'])
      await expect(answer(buyer, word)).rejects.toThrow(/The other side confirms or refuses/);
    await expect(answer(seller, 'withdrawn')).rejects.toThrow(/whoever proposed it withdraws it/);
    await answer(buyer, 'withdrawn');
    await expect(answer(seller, 'confirmed')).rejects.toThrow(/duplicate key/);
  });

  test('a hold is released by whoever placed it', async () => {
    const end = (who: Context) =>
      write(who, 'hold_end', { ...recorded(who), hold_id: world.open.holdId, ending: 'released' });
    await expect(end(seller)).rejects.toThrow(/Whoever holds an amount back/);
    await end(buyer);
    await expect(end(buyer)).rejects.toThrow(/duplicate key/);
  });

  test('a lien is ended by the buyer', async () => {
    const end = (who: Context) =>
      write(who, 'lien_end', {
        ...{ ...recorded(who), lien_id: world.open.lienId, ended_on: '2026-11-26', reason: 'x' },
      });
    await expect(end(seller)).rejects.toThrow(/The buyer records that a lien is over/);
    await end(buyer);
    await expect(end(buyer)).rejects.toThrow(/duplicate key/);
  });

  const AUTHORED = MONEY_TABLES.filter(
    (table) => !['money_document', 'document_load', 'allocation'].includes(table),
  );
  test.each(AUTHORED)('%s: not even in its name', async (table) => {
    const { rows } = await client.query<{ row: Row }>(`SELECT to_jsonb(t) AS row FROM "${table}" t LIMIT 1`);
    const own = rows[0]?.row ?? {};
    const author = own['by_party_id'] === buyer.caller.partyId ? buyer : seller;
    const other = author === buyer ? seller : buyer;
    await client.query(`ALTER TABLE "${table}" DISABLE TRIGGER USER`);
    await expect(write(other, table, { ...own, id: v7() })).rejects.toThrow(
      /row-level security.*by_its_author|by_its_author/,
    );
    await client.query(`ALTER TABLE "${table}" ENABLE TRIGGER USER`);
  });
});

test('no row points into another agreement', async () => {
  const { caller } = seller;
  const second = await moneyWorld(record, { parties: { seller: caller, buyer: buyer.caller } });
  const elsewhere = { agreement_id: second.agreementId };
  const { documentId, paymentId, lienId, setOffId, holdId } = world.open;
  const rows: readonly (readonly [Context, string, Row])[] = [
    [buyer, 'hold', { document_id: documentId, amount: '1', reason: 'x' }],
    [buyer, 'hold_end', { hold_id: holdId, ending: 'decided' }],
    [buyer, 'lien_end', { lien_id: lienId, ended_on: '2026-11-26', reason: 'x' }],
  ];
  for (const [who, table, row] of rows)
    await expect(write(who, table, { ...recorded(who), ...row, ...elsewhere }), table).rejects.toThrow(
      /foreign key/,
    );
  const part = { source_id: v7(), place: 0, document_id: documentId, amount: '1', discount: '0' };
  await expect(write(seller, 'allocation', { ...part, ...elsewhere })).rejects.toThrow(/foreign key/);
  const answers: readonly (readonly [string, Row])[] = [
    ['payment_answer', { payment_id: paymentId, answer: 'confirmed' }],
    ['set_off_answer', { set_off_id: setOffId, answer: 'confirmed' }],
  ];
  for (const [table, row] of answers)
    await expect(write(seller, table, { ...recorded(seller), ...row, ...elsewhere })).rejects.toThrow(
      /foreign key/,
    );
});

describe('where a party wants its money', () => {
  const accountOf = async (who: Context, whose: Context) =>
    await as(who, 'SELECT number FROM payee_account WHERE party_id = $1', [whose.caller.partyId]);

  test('is seen by itself and its partners', async () => {
    for (const who of [seller, buyer])
      for (const whose of [seller, buyer]) expect(await accountOf(who, whose)).toEqual([{ number: '0042' }]);
    for (const who of [stranger, adviser]) {
      expect(await accountOf(who, seller)).toEqual([]);
      expect(await accountOf(who, buyer)).toEqual([]);
    }
  });

  test('is said by nobody else', async () => {
    const other = ACCOUNT.replace('$1, 1,', '$1, 2,');
    for (const who of [buyer, stranger, adviser])
      await expect(as(who, other, [seller.caller.partyId])).rejects.toThrow(/row-level security/);
    await as(seller, other, [seller.caller.partyId]);
  });
});
