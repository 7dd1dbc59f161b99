/**
 * What the database itself holds of notes about a season and of money that takes up a sealed one, tried with raw SQL as the
 * program's own role: only a sealed season of the same two parties is taken up, its balance once and as signed, other money as
 * both agreed, and nobody speaks for the other side. Each of these fails if its guard is taken out.
 */
import { createHash } from 'node:crypto';
import type { Client } from 'pg';
import { v7 } from 'uuid';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Context } from '../../src/usecases/context.ts';
import { holdAmount } from '../../src/usecases/money/hold-amount.ts';
import { answerSeasonNote } from '../../src/usecases/season-close/answer-season-note.ts';
import { bringForward } from '../../src/usecases/season-close/bring-forward.ts';
import { proposeClose, signClose } from '../../src/usecases/season-close/close-season.ts';
import { noteDifference, proposePastSeason } from '../../src/usecases/season-close/put-season-note.ts';
import { acceptShare } from '../../src/usecases/sharing/accept-share.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { type MoneyWorld, moneyWorld } from '../usecases/money-world.ts';
import { newParty, openTestRecord, type TestRecord } from './test-record.ts';

let record: TestRecord;
let client: Client;
/** Sealed over 1,000.00 of which 100.00 is held; its balance nobody has brought forward. */
let past: MoneyWorld;
let next: MoneyWorld;
/** Of the same two, not sealed. */
let open: MoneyWorld;
let loadId: string;
/** Of the sealed season. */
let holdId: string;
let noteId: string;

beforeAll(async () => {
  record = await openTestRecord();
  client = await record.superuser();
  past = await season();
  const [, first] = await past.deliver({ T1: '10' }, '2026-11-20');
  expect(first).toBeUndefined();
  const { documents } = await past.invoice();
  await holdAmount(past.buyer, { documentId: documents[0]?.id ?? '', figure: '900', reason: 'wet' });
  holdId = (await client.query('SELECT id FROM hold')).rows[0].id;
  loadId = (await client.query('SELECT id FROM load WHERE agreement_id = $1', [past.agreementId])).rows[0].id;
  await seal(past);
  [next, open] = [await season(), await season()];
  ({ noteId } = await proposePastSeason(past.buyer, {
    agreementId: next.agreementId,
    ofAgreementId: past.agreementId,
    amount: '25',
    reason: 'Hauling',
  }));
});
afterAll(async () => {
  await client.end();
  await record.close();
});

const season = () =>
  moneyWorld(
    record,
    past ? { parties: { seller: past.seller.caller, buyer: past.buyer.caller } } : undefined,
  );

async function seal({ agreementId, seller, buyer }: MoneyWorld): Promise<void> {
  const drawn = await proposeClose(seller, { agreementId, carriesOver: true, name: 'Wren Alder' });
  await signClose(buyer, { ...drawn, name: 'Juniper Marsh' });
}

type Row = Readonly<Record<string, unknown>>;

/** Statements in one transaction of a party's, as the program's role. */
async function as({ caller }: Pick<Context, 'caller'>, work: () => Promise<unknown>): Promise<void> {
  await client.query('BEGIN');
  try {
    await client.query(
      "SELECT set_config('role', 'huskledger_app', true), set_config('app.party', $1, true)",
      [caller.partyId],
    );
    await work();
    await client.query('SET CONSTRAINTS ALL IMMEDIATE');
    await client.query('ROLLBACK');
  } catch (error) {
    await client.query('ROLLBACK');
    throw error;
  }
}

async function insert(table: string, row: Row): Promise<void> {
  const names = Object.keys(row);
  await client.query(
    `INSERT INTO "${table}" (${names.join(', ')}) VALUES (${names.map((_, at) => `$${at + 1}`).join(', ')})`,
    Object.values(row),
  );
}

const stamp = ({ caller }: Context) => ({
  id: v7(),
  recorded_at: '2026-11-28T19:00:00Z',
  recorded_by: caller.personId,
});

async function note(who: Context, row: Row): Promise<void> {
  await as(who, () =>
    insert('season_note', {
      ...stamp(who),
      agreement_id: next.agreementId,
      kind: 'past-season',
      of_agreement_id: past.agreementId,
      amount: '25',
      reason: 'x',
      by_party_id: who.caller.partyId,
      ...row,
    }),
  );
}

/** A note of money in the next agreement, as the program would write it. */
async function documentRow(row: Row): Promise<Row & { readonly id: string }> {
  const { rows } = await client.query(
    'SELECT coalesce(max(serial), 0) + 1 AS serial FROM money_document WHERE seller_id = $1',
    [past.seller.caller.partyId],
  );
  return {
    ...stamp(past.seller),
    agreement_id: next.agreementId,
    seller_id: past.seller.caller.partyId,
    serial: rows[0].serial,
    kind: 'debit-note',
    issued_on: '2026-11-28',
    due_on: '2026-11-28',
    currency: 'USD',
    payable: '1000',
    document: '{}',
    fingerprint: createHash('sha256').update('{}').digest('hex'),
    season_rule: 'brought-forward',
    of_agreement_id: past.agreementId,
    ...row,
  };
}

const document = async (row: Row) => {
  const whole = await documentRow(row);
  await as(past.seller, () => insert('money_document', whole));
};

describe('a note about a season', () => {
  test('is taken where it is in order', async () => {
    await note(past.buyer, {});
    await note(past.buyer, { of_load_id: loadId });
    await note(past.seller, { kind: 'difference', of_agreement_id: null, amount: '0' });
  });

  test.each([
    [
      'of a season that is open',
      () => ({ of_agreement_id: open.agreementId }),
      /sealed season of the same two/,
    ],
    ['of its own agreement', () => ({ of_agreement_id: next.agreementId }), /sealed season of the same two/],
    ['of another kind', () => ({ kind: 'gift', of_agreement_id: null }), /season_note_kind/],
    ['for no season', () => ({ of_agreement_id: null }), /season_note_subject/],
    ['of a difference in another season', () => ({ kind: 'difference' }), /season_note_subject/],
    [
      'of a load without its season',
      () => ({ kind: 'difference', of_agreement_id: null, of_load_id: loadId }),
      /season_note_subject/,
    ],
    [
      'of a load of another season',
      () => ({ kind: 'difference', of_agreement_id: null, load_id: loadId }),
      /foreign key/,
    ],
    ['of no money for a sealed season', () => ({ amount: '0' }), /season_note_amount/],
    ['in the other side’s name', () => ({ by_party_id: past.seller.caller.partyId }), /row-level security/],
  ])('%s is refused', async (_, row, message) => {
    await expect(note(past.buyer, row())).rejects.toThrow(message);
  });

  test('of another pair is neither seen nor written', async () => {
    const stranger: Context = { ...past.seller, caller: await newParty(record.tools, 'Sorrel Bend Dairy') };
    await expect(note(stranger, {})).rejects.toThrow();
    await as(stranger, async () => {
      for (const table of ['season_note', 'season_note_answer']) {
        expect((await client.query(`SELECT 1 FROM ${table}`)).rows).toEqual([]);
      }
    });
  });

  test('is between the two: an adviser reads none of it, also not in the journal', async () => {
    const adviser: Context = { ...past.seller, caller: await newParty(record.tools, 'Row and Husk Advice') };
    await acceptShare(adviser, await askAdviser(past.buyer, { agreementId: next.agreementId }));
    const seen = (who: Context) => async () => {
      const rows = await client.query(
        "SELECT 1 FROM journal_entry WHERE agreement_id = $1 AND kind LIKE 'season-note%'",
        [next.agreementId],
      );
      expect(rows.rows.length > 0).toBe(who !== adviser);
      expect((await client.query('SELECT 1 FROM season_note')).rows.length > 0).toBe(who !== adviser);
    };
    for (const who of [past.buyer, past.seller, adviser]) await as(who, seen(who));
  });

  test('is never changed, taken out or emptied', async () => {
    for (const sql of [
      "UPDATE season_note SET reason = 'y'",
      'DELETE FROM season_note',
      'TRUNCATE season_note CASCADE',
    ]) {
      await expect(client.query(sql)).rejects.toThrow(/written once|never|refuse|changed/i);
      await expect(as(past.buyer, () => client.query(sql))).rejects.toThrow(/permission denied/);
    }
  });
});

describe('an answer', () => {
  const answer = (who: Context, row: Row) =>
    as(who, () =>
      insert('season_note_answer', {
        ...stamp(who),
        agreement_id: next.agreementId,
        note_id: noteId,
        answer: 'refused',
        reason: 'x',
        by_party_id: who.caller.partyId,
        ...row,
      }),
    );

  test('is the other side’s; whoever put the note takes it back', async () => {
    await answer(past.seller, {});
    await answer(past.buyer, { answer: 'withdrawn' });
    await expect(answer(past.buyer, {})).rejects.toThrow(/other side confirms or refuses/);
    await expect(answer(past.seller, { answer: 'withdrawn' })).rejects.toThrow(
      /other side confirms or refuses/,
    );
    await expect(answer(past.seller, { answer: 'maybe' })).rejects.toThrow(/season_note_answer_word/);
    await expect(
      answer(past.seller, { by_party_id: past.buyer.caller.partyId, answer: 'withdrawn' }),
    ).rejects.toThrow(/row-level security/);
  });

  test('that agrees to money names the note of money, and no other answer does', async () => {
    await expect(answer(past.seller, { answer: 'confirmed' })).rejects.toThrow(/Money follows/);
    const { noteId: differs } = await noteDifference(past.buyer, {
      agreementId: next.agreementId,
      amount: '5',
      reason: 'Our own list says more',
    });
    await answer(past.seller, { note_id: differs, answer: 'confirmed' });
    const money = await documentRow({ season_rule: 'past-season', payable: '25' });
    await expect(
      as(past.seller, async () => {
        await insert('money_document', money);
        await insert('season_note_answer', {
          ...stamp(past.seller),
          agreement_id: next.agreementId,
          note_id: differs,
          answer: 'confirmed',
          document_id: money.id,
          by_party_id: past.seller.caller.partyId,
        });
      }),
    ).rejects.toThrow(/Money follows/);
  });
});

describe('money that takes up a sealed season', () => {
  test('is its balance as signed, once', async () => {
    await document({});
    await expect(document({ payable: '999' })).rejects.toThrow(/balance that both signed/);
    await expect(
      document({ due_on: '2026-11-01', season_rule: null, of_agreement_id: null }),
    ).rejects.toThrow(/money_document_due/);
    await document({ due_on: '2026-11-01' });
    await expect(document({ currency: 'EUR' })).rejects.toThrow(/its own currency/);
    await expect(document({ of_agreement_id: open.agreementId })).rejects.toThrow(
      /sealed season of the same two/,
    );
    await expect(document({ season_rule: null })).rejects.toThrow(/money_document_of_season/);
    await expect(document({ of_agreement_id: null })).rejects.toThrow(/money_document_of_season/);
    await expect(document({ season_rule: 'gift', of_agreement_id: null })).rejects.toThrow(
      /money_document_season/,
    );
    const [one, other] = [await documentRow({}), await documentRow({})];
    await expect(
      as(past.seller, async () => {
        await insert('money_document', one);
        await insert('money_document', { ...other, serial: Number(one['serial']) + 1 });
      }),
    ).rejects.toThrow(/balance that both signed, once/);
    // In parts it is the balance too, in one agreement.
    const parts = [await documentRow({ payable: '600' }), await documentRow({ payable: '400' })] as const;
    const inParts = (of: Row) =>
      as(past.seller, async () => {
        await insert('money_document', parts[0]);
        await insert('money_document', { ...parts[1], serial: Number(parts[0]['serial']) + 1, ...of });
      });
    await inParts({});
    await expect(inParts({ agreement_id: open.agreementId })).rejects.toThrow(
      /balance that both signed, once/,
    );
  });

  test('is what both agreed to, to the cent', async () => {
    const money = { season_rule: 'past-season', payable: '25' };
    await expect(document(money)).rejects.toThrow(/Both sides agree/);
    const agreed = (row: Row, said: Row = {}) =>
      documentRow({ ...money, ...row }).then((whole) =>
        as(past.seller, async () => {
          await insert('money_document', whole);
          await insert('season_note_answer', {
            ...stamp(past.seller),
            agreement_id: next.agreementId,
            note_id: noteId,
            answer: 'confirmed',
            document_id: whole.id,
            by_party_id: past.seller.caller.partyId,
            ...said,
          });
        }),
      );
    await agreed({});
    await expect(agreed({ payable: '26' })).rejects.toThrow(/Both sides agree/);
    await expect(agreed({}, { answer: 'refused', reason: 'x' })).rejects.toThrow(
      /Money follows|season_note_answer_document/,
    );
  });

  test('is held for whoever held it, and for nobody else', async () => {
    const whole = await documentRow({});
    const held = (row: Row) =>
      as(past.seller, async () => {
        await insert('money_document', whole);
        await insert('hold', {
          ...stamp(past.seller),
          agreement_id: next.agreementId,
          document_id: whole.id,
          amount: '100',
          reason: 'wet',
          by_party_id: past.buyer.caller.partyId,
          carried_from: holdId,
          ...row,
        });
      });
    await held({});
    await expect(held({ by_party_id: past.seller.caller.partyId })).rejects.toThrow(/row-level security/);
    await expect(held({ carried_from: v7() })).rejects.toThrow(/row-level security/);
    await expect(held({ carried_from: null })).rejects.toThrow(/row-level security/);
    await expect(
      as(past.seller, async () => {
        await insert('money_document', whole);
        for (const id of [v7(), v7()]) {
          await insert('hold', {
            ...stamp(past.seller),
            id,
            agreement_id: next.agreementId,
            document_id: whole.id,
            amount: '10',
            reason: 'wet',
            by_party_id: past.buyer.caller.partyId,
            carried_from: holdId,
          });
        }
      }),
    ).rejects.toThrow(/hold_carried_from_key/);
  });
});

test('all of it is as the program does it', async () => {
  await bringForward(past.seller, { agreementId: next.agreementId, ofAgreementId: past.agreementId });
  await answerSeasonNote(past.seller, { noteId, answer: 'confirmed' });
  const { rows } = await client.query(
    `SELECT season_rule, payable::text FROM money_document WHERE agreement_id = $1 ORDER BY serial`,
    [next.agreementId],
  );
  expect(rows).toEqual([
    { season_rule: 'brought-forward', payable: '1000.00' },
    { season_rule: 'past-season', payable: '25.00' },
  ]);
});
