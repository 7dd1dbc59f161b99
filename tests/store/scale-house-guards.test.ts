/**
 * What the database itself holds of tickets, corrections, samples and laboratories, tried with raw SQL as the program's
 * own role. Each of these fails if its guard is taken out.
 */
import type { Client } from 'pg';
import { v7 } from 'uuid';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Context } from '../../src/usecases/context.ts';
import { answerCorrection, proposeCorrection } from '../../src/usecases/corrections/agree-correction.ts';
import { correctLoad } from '../../src/usecases/loads/correct-load.ts';
import { readTicket } from '../../src/usecases/loads/read-ticket.ts';
import { importTogether, newParty, openTestRecord, type TestRecord } from './test-record.ts';

let record: TestRecord;
let client: Client;
let seller: Context;
let buyer: Context;
let laboratory: Context;
let agreementId: string;
let settled: { readonly id: string; readonly ticket: string };
let waiting: { readonly id: string; readonly ticket: string };

beforeAll(async () => {
  record = await openTestRecord();
  const party = async (name: string): Promise<Context> => ({
    ...record.tools,
    caller: await newParty(record.tools, name),
  });
  seller = await party('Oddmeadow Farm');
  buyer = await party('Lanternfield Dairy');
  laboratory = await party('Fennel Ridge Laboratory');
  const folder = 'demo/bushels-dry';
  const imported = await importTogether(record.tools, { folder, seller: seller.caller, buyer: buyer.caller });
  agreementId = imported.agreementId ?? '';
  client = await record.superuser();
  await client.query(
    `INSERT INTO laboratory_access (agreement_id, id, party_id, label, since) VALUES ($1, $2, $3, 'one', now())`,
    [agreementId, v7(), laboratory.caller.partyId],
  );
  const load = async (isSettled: boolean) => {
    const { rows } = await client.query<{ id: string; ticket: string }>(
      `SELECT id, ticket FROM load l WHERE ${isSettled ? '' : 'NOT'} EXISTS (SELECT FROM settlement s WHERE s.load_id = l.id)
       ORDER BY ticket LIMIT 1`,
    );
    const [first] = rows;
    if (!first) throw new Error('The demo has loads of both kinds');
    return first;
  };
  [settled, waiting] = [await load(true), await load(false)];
});
afterAll(async () => {
  await client.end();
  await record.close();
});

type Rows = readonly Record<string, unknown>[];

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

describe('a ticket number', () => {
  const insert = (ticket: string) =>
    as(
      seller,
      `INSERT INTO load (agreement_id, id, ticket, delivered_at, delivered_on, gross, tare, unit, recorded_at, recorded_by)
       VALUES ($1, $2, $3, now(), '2026-10-01', 2, 1, 'lb', now(), $2)`,
      [agreementId, v7(), ticket],
    );

  test('belongs to one load, and is free again once its load has another', async () => {
    await expect(insert(waiting.ticket)).rejects.toThrow(/ticket_taken/);
    const { ticket, version } = await readTicket(seller, { loadId: waiting.id });
    const load = { ...ticket, ticket: 'B-9001' };
    await correctLoad(seller, {
      loadId: waiting.id,
      load,
      reason: 'Misread',
      baseVersion: version,
      confirmed: true,
    });
    await insert(waiting.ticket);
    await expect(insert('B-9001')).rejects.toThrow(/ticket_taken/);
  });

  test('is kept by the database alone', async () => {
    await expect(as(seller, 'DELETE FROM ticket_taken')).rejects.toThrow(/permission denied/);
  });
});

describe('a correction', () => {
  test('is confirmed by the other side, never by whoever proposed it', async () => {
    const { ticket } = await readTicket(seller, { loadId: settled.id });
    const { correctionId } = await proposeCorrection(seller, {
      agreementId,
      subject: 'load',
      subjectId: settled.id,
      figures: { ...ticket, gross: String(Number(ticket['gross']) + 20) },
      reason: 'Misread',
      confirmed: true,
    });
    const answer = (who: Context, word: string) =>
      as(
        who,
        `INSERT INTO correction_answer (agreement_id, id, correction_id, answer, by_party_id, recorded_at, recorded_by)
         VALUES ($1, $2, $3, $4, $5, now(), $5)`,
        [agreementId, v7(), correctionId, word, who.caller.partyId],
      );
    await expect(answer(seller, 'confirmed')).rejects.toThrow(/other side confirms/);
    await expect(answer(buyer, 'withdrawn')).rejects.toThrow(/other side confirms/);
    await answerCorrection(seller, { correctionId, answer: 'withdrawn' });
    await expect(answer(buyer, 'confirmed')).rejects.toThrow(/duplicate key/);
  });
});

describe('a laboratory', () => {
  test('sees samples and results, and no weight, price or term', async () => {
    const count = async (table: string) =>
      (await as(laboratory, `SELECT count(*)::int AS n FROM "${table}"`))[0]?.['n'];
    expect(await count('sample')).toBeGreaterThan(0);
    expect(await count('result')).toBeGreaterThan(0);
    for (const table of [
      'load',
      'current_load',
      'agreement',
      'agreement_version',
      'quote',
      'settlement',
      'posting',
    ]) {
      expect(await count(table), table).toBe(0);
    }
    expect(await count('journal_entry')).toBe(0);
  });

  test('enters results in its own name alone', async () => {
    const [sample] = await as(laboratory, 'SELECT id FROM sample LIMIT 1');
    const result = (enteredBy: string) =>
      as(
        laboratory,
        `INSERT INTO result (agreement_id, id, sample_id, version, reason, basis, dry_matter, entered_by, recorded_at, recorded_by)
         VALUES ($1, $2, $3, 9, 'x', 'dry-matter', 60, $4, now(), $2)`,
        [agreementId, v7(), sample?.['id'], enteredBy],
      );
    await expect(result(seller.caller.partyId)).rejects.toThrow(/row-level security/);
    await expect(as(laboratory, 'UPDATE laboratory_access SET ended_at = NULL')).rejects.toThrow(
      /row-level security/,
    );
  });
});

describe('what is written', () => {
  test.each(['load_version', 'correction', 'correction_answer'])('%s is written once', async (table) => {
    for (const sql of [`DELETE FROM "${table}"`, `UPDATE "${table}" SET id = id`]) {
      await expect(as(seller, sql), sql).rejects.toThrow(/permission denied/);
      await expect(client.query(sql), sql).rejects.toThrow(/written once/);
    }
  });
});
