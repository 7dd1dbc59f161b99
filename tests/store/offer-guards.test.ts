/**
 * What the database itself holds of bargaining, tried with raw SQL as the program's own roles: nobody sees another
 * buyer's offer, signs for another, or sells a lot twice. Each of these fails if its guard is taken out.
 */
import type { Client } from 'pg';
import { v7 } from 'uuid';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { sha256 } from '../../src/journal/fingerprint.ts';
import type { Context } from '../../src/usecases/context.ts';
import { draftLot } from '../../src/usecases/lots/keep-lot.ts';
import { agreed, LOT, newSigner, offered, postedLot, signNewest } from '../usecases/bargain.ts';
import { openTestRecord, type TestRecord } from './test-record.ts';

let record: TestRecord;
let client: Client;
let seller: Context;
let buyer: Context;
let rival: Context;
let adviser: Context;
let lotId: string;
let draftId: string;
let offerId: string;
let agreementId: string;
let soldLot: string;

beforeAll(async () => {
  record = await openTestRecord();
  seller = await newSigner(record.tools, 'Quillback Acres');
  buyer = await newSigner(record.tools, 'Tarn Hollow Dairy');
  rival = await newSigner(record.tools, 'Sorrel Bend Dairy');
  adviser = await newSigner(record.tools, 'Row and Husk Advice');
  agreementId = await agreed({
    seller: [seller, 'Quillback Acres'],
    buyer: [buyer, 'Tarn Hollow Dairy'],
  });
  lotId = await postedLot(seller);
  ({ lotId: draftId } = await draftLot(seller, { document: LOT, address: '9 Teasel Lane' }));
  offerId = await offered(buyer, lotId);
  await signNewest(buyer, offerId, 'Tarn Hollow Dairy');
  client = await record.superuser();
  const { rows } = await client.query<{ lot_id: string }>('SELECT lot_id FROM signing');
  soldLot = rows[0]?.lot_id ?? '';
});
afterAll(async () => {
  await client.end();
  await record.close();
});

type Rows = readonly Record<string, unknown>[];

/** One statement in a transaction of its own, as the program's role for a party. */
async function as({ caller }: Context, sql: string, values: readonly unknown[] = []): Promise<Rows> {
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

const count = async (who: Context, table: string) =>
  (await as(who, `SELECT count(*)::int AS n FROM "${table}"`))[0]?.['n'];

describe('an offer', () => {
  test.each(['offer', 'offer_version', 'signature', 'offer_ending', 'signing', 'agreement'])(
    '%s: rows are seen by its two parties alone',
    async (table) => {
      expect(await count(seller, table)).toBeGreaterThan(0);
      expect(await count(buyer, table)).toBeGreaterThan(0);
      expect(await count(rival, table)).toBe(0);
      expect(await count(adviser, table)).toBe(0);
    },
  );

  test('of another takes no version, signature or end from a rival', async () => {
    const version = `INSERT INTO offer_version (offer_id, version, by_party_id, document, fingerprint, valid_until, recorded_at, recorded_by)
      VALUES ($1, 2, $2, '{}', $3, now() + interval '1 day', now(), $2)`;
    const values = [offerId, rival.caller.partyId, sha256('{}')];
    await expect(as(rival, version, values)).rejects.toThrow(/row-level security|Only the two parties/);
    await expect(
      as(rival, `INSERT INTO offer_ending VALUES ($1, 'declined', $2, now())`, [
        offerId,
        rival.caller.partyId,
      ]),
    ).rejects.toThrow(/row-level security/);
  });

  test('is signed by nobody for another party', async () => {
    const [row] = await as(seller, 'SELECT fingerprint FROM offer_version WHERE offer_id = $1', [offerId]);
    const sign = `INSERT INTO signature VALUES ($1, 1, $2, $2, 'Somebody', $3, now())`;
    const forged = [offerId, seller.caller.partyId, row?.['fingerprint']];
    await expect(as(buyer, sign, forged)).rejects.toThrow(/row-level security/);
    const other = [offerId, seller.caller.partyId, sha256('something else')];
    await expect(as(seller, sign, other)).rejects.toThrow(/foreign key/);
  });

  test('leaves no gap in its versions, and takes none after its end', async () => {
    const version = (id: string, number: number) =>
      as(
        seller,
        `INSERT INTO offer_version (offer_id, version, by_party_id, document, fingerprint, valid_until, recorded_at, recorded_by)
         VALUES ($1, $2, $3, '{}', $4, now() + interval '1 day', now(), $3)`,
        [id, number, seller.caller.partyId, sha256('{}')],
      );
    await expect(version(offerId, 3)).rejects.toThrow(/newer version/);
    const [over] = await as(seller, 'SELECT offer_id FROM offer_ending LIMIT 1');
    await expect(version(String(over?.['offer_id']), 2)).rejects.toThrow(/The offer is over/);
  });

  test('is made on a posted lot of its seller alone', async () => {
    const insert = `INSERT INTO offer (id, seller_id, buyer_id, purpose, lot_id, created_at) VALUES ($1, $2, $3, 'agreement', $4, now())`;
    for (const lot of [draftId, soldLot]) {
      await expect(
        as(rival, insert, [v7(), seller.caller.partyId, rival.caller.partyId, lot]),
      ).rejects.toThrow(/posted lot/);
    }
    await expect(
      as(rival, insert, [v7(), buyer.caller.partyId, rival.caller.partyId, lotId]),
    ).rejects.toThrow(/posted lot/);
  });
});

describe('a signing', () => {
  const signing = (offer: string, version: number, values: readonly unknown[]) =>
    as(
      seller,
      `INSERT INTO signing (agreement_id, id, version_id, seller_id, serial, offer_id, offer_version, recorded_at, recorded_by)
       VALUES ($1, $2, $3, $4, 99, $5, $6, now(), $2)`,
      [...values, offer, version],
    );

  test('needs both signatures', async () => {
    const [row] = await as(seller, 'SELECT id FROM agreement_version WHERE agreement_id = $1', [agreementId]);
    await expect(
      signing(offerId, 1, [agreementId, v7(), row?.['id'], seller.caller.partyId]),
    ).rejects.toThrow(/Both parties must have signed/);
  });

  test('is numbered by the database, whatever was asked', async () => {
    const rows = await as(seller, 'SELECT serial FROM signing');
    expect(rows).toEqual([{ serial: 1 }]);
  });

  test('sells its lot for good', async () => {
    await expect(as(seller, `UPDATE lot SET state = 'posted' WHERE id = $1`, [soldLot])).rejects.toThrow(
      /stays sold/,
    );
  });
});

describe('a lot', () => {
  test('that is a draft, or its draft versions, are the seller’s alone', async () => {
    for (const who of [buyer, rival, adviser]) {
      expect(await as(who, 'SELECT FROM lot WHERE id = $1', [draftId])).toEqual([]);
      const versions = await as(who, 'SELECT version FROM lot_version WHERE lot_id = $1', [lotId]);
      expect(versions).toEqual([{ version: 2 }]);
    }
    expect(
      await as(seller, 'SELECT version FROM lot_version WHERE lot_id = $1 ORDER BY 1', [lotId]),
    ).toHaveLength(2);
  });

  test('tells its address to who bought it', async () => {
    const sql = 'SELECT lot_id FROM lot_address';
    expect(await as(buyer, sql)).toEqual([{ lot_id: soldLot }]);
    expect(await as(rival, sql)).toEqual([]);
    expect(await as(seller, sql)).toHaveLength(3);
  });

  test('is changed by its seller alone', async () => {
    await expect(
      as(rival, `UPDATE lot SET state = 'withdrawn' WHERE id = $1 RETURNING id`, [lotId]),
    ).resolves.toEqual([]);
    await expect(
      as(rival, `INSERT INTO lot_version VALUES ($1, 9, '{}', true, now(), $2)`, [
        lotId,
        rival.caller.personId,
      ]),
    ).rejects.toThrow(/row-level security/);
    await expect(as(seller, 'UPDATE lot SET held_until = now()')).rejects.toThrow(/permission denied/);
  });

  test('is under offer while one side has signed, and anybody who sees it sees that alone', async () => {
    const [held] = await as(rival, 'SELECT held_until IS NOT NULL AS held FROM lot WHERE id = $1', [lotId]);
    expect(held).toEqual({ held: true });
  });
});

describe('advice', () => {
  const invite = (who: Context, column: string, subject: string, to = adviser) =>
    as(
      who,
      `INSERT INTO advice (id, party_id, adviser_id, ${column}, since) VALUES ($1, $2, $3, $4, now()) RETURNING id`,
      [v7(), who.caller.partyId, to.caller.partyId, subject],
    );

  test('is asked on one’s own things, and of no party that takes part', async () => {
    await expect(invite(rival, 'agreement_id', agreementId)).rejects.toThrow(/takes part in/);
    await expect(invite(rival, 'offer_id', offerId)).rejects.toThrow(/takes part in/);
    await expect(invite(seller, 'agreement_id', agreementId, buyer)).rejects.toThrow(/cannot advise/);
  });

  test('lets an adviser read one agreement and write nothing there', async () => {
    const [asked] = await invite(buyer, 'agreement_id', agreementId);
    expect(await count(adviser, 'agreement')).toBe(1);
    expect(await count(adviser, 'offer')).toBe(0);
    await expect(
      as(
        adviser,
        `INSERT INTO load (agreement_id, id, ticket, delivered_at, delivered_on, gross, tare, unit, recorded_at, recorded_by)
         VALUES ($1, $2, 'X', now(), '2026-10-01', 2, 1, 'lb', now(), $2)`,
        [agreementId, v7()],
      ),
    ).rejects.toThrow(/row-level security/);
    const note = `INSERT INTO advice_note VALUES ($1, $2, $3, 'Ada', 'Look at the fibre.', now())`;
    await as(adviser, note, [asked?.['id'], v7(), adviser.caller.partyId]);
    expect(await count(buyer, 'advice_note')).toBe(1);
    expect(await count(seller, 'advice_note')).toBe(0);
    expect(await count(seller, 'advice')).toBe(0);
    await as(buyer, 'UPDATE advice SET ended_at = now() WHERE id = $1', [asked?.['id']]);
    expect(await count(adviser, 'agreement')).toBe(0);
    await expect(as(adviser, note, [asked?.['id'], v7(), adviser.caller.partyId])).rejects.toThrow(
      /row-level/,
    );
    await expect(
      as(buyer, 'UPDATE advice SET ended_at = NULL WHERE id = $1', [asked?.['id']]),
    ).rejects.toThrow(/stays ended/);
  });

  test('is given by nobody who bids on the lot, and who gives it does not bid', async () => {
    await as(
      rival,
      `INSERT INTO offer (id, seller_id, buyer_id, purpose, lot_id, created_at) VALUES ($1, $2, $3, 'agreement', $4, now())`,
      [v7(), seller.caller.partyId, rival.caller.partyId, lotId],
    );
    await expect(invite(buyer, 'offer_id', offerId, rival)).rejects.toThrow(/does not advise/);
    await expect(invite(buyer, 'lot_id', lotId, rival)).rejects.toThrow(/does not advise/);
    const [asked] = await invite(buyer, 'offer_id', offerId);
    const bid = `INSERT INTO offer (id, seller_id, buyer_id, purpose, lot_id, created_at) VALUES ($1, $2, $3, 'agreement', $4, now())`;
    const values = [v7(), seller.caller.partyId, adviser.caller.partyId, lotId];
    await expect(as(adviser, bid, values)).rejects.toThrow(/does not bid/);
    await as(adviser, 'UPDATE advice SET ended_at = now() WHERE id = $1', [asked?.['id']]);
    await as(adviser, bid, values);
  });

  test('holds notes in their author’s name and drafts of the adviser alone', async () => {
    const [asked] = await invite(buyer, 'agreement_id', agreementId);
    const id = asked?.['id'];
    const note = `INSERT INTO advice_note VALUES ($1, $2, $3, 'Ada', 'Look at the fibre.', now())`;
    await expect(as(adviser, note, [id, v7(), buyer.caller.partyId])).rejects.toThrow(/row-level security/);
    const draft = `INSERT INTO advice_draft (advice_id, id, document, by_name, written_at) VALUES ($1, $2, '{}', 'Ada', now())`;
    await expect(as(buyer, draft, [id, v7()])).rejects.toThrow(/row-level security/);
    await as(adviser, draft, [id, v7()]);
    expect(await count(buyer, 'advice_draft')).toBe(1);
    expect(await count(seller, 'advice_draft')).toBe(0);
  });

  test('shows a draft of a lot to its seller’s adviser alone, while it runs', async () => {
    const shown = 'SELECT version FROM lot_version WHERE lot_id = $1';
    const [asked] = await invite(seller, 'lot_id', draftId);
    expect(await as(adviser, shown, [draftId])).toHaveLength(1);
    expect(await as(buyer, shown, [draftId])).toEqual([]);
    await as(seller, 'UPDATE advice SET ended_at = now() WHERE id = $1', [asked?.['id']]);
    expect(await as(adviser, shown, [draftId])).toEqual([]);
  });
});

describe('what is written', () => {
  test.each([
    'signing',
    'lot_version',
    'lot_address',
    'offer',
    'offer_version',
    'offer_ending',
    'signature',
    'advice_note',
    'advice_draft',
  ])('%s: nobody changes or takes away, not even the owner of the table', async (table) => {
    for (const sql of [`DELETE FROM "${table}"`, `TRUNCATE "${table}" CASCADE`]) {
      await expect(as(seller, sql), sql).rejects.toThrow(/permission denied/);
      await expect(client.query(sql), sql).rejects.toThrow(/written once/);
    }
    await expect(as(seller, `UPDATE "${table}" SET ${await firstColumn(table)}`)).rejects.toThrow(
      /permission denied/,
    );
    await expect(client.query(`UPDATE "${table}" SET ${await firstColumn(table)}`)).rejects.toThrow(
      /written once/,
    );
  });

  async function firstColumn(table: string): Promise<string> {
    const { rows } = await client.query<{ name: string }>(
      `SELECT column_name AS name FROM information_schema.columns WHERE table_name = $1 AND ordinal_position = 1`,
      [table],
    );
    return `"${rows[0]?.name}" = "${rows[0]?.name}"`;
  }

  test('the public role sees public listings and nothing else', async () => {
    const { rows } = await client.query<{ name: string }>(
      `SELECT table_name AS name FROM information_schema.role_table_grants WHERE grantee = 'huskledger_public'`,
    );
    expect(rows).toEqual([{ name: 'public_listing' }]);
  });
});
