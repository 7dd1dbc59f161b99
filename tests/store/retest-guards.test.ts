/**
 * What the database itself holds of questions and retests, tried with raw SQL as the program's own role: nothing is
 * changed, a figure has one open question and that one ending, nobody speaks for the other side, and it all is between the
 * two parties alone. Each of these fails if its guard is taken out.
 */
import type { Client } from 'pg';
import { v7 } from 'uuid';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Context } from '../../src/usecases/context.ts';
import { acceptShare } from '../../src/usecases/sharing/accept-share.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { type EveryRetestRow, everyRetestRow, RETEST_TABLES } from '../usecases/every-retest-row.ts';
import { retestWorld } from '../usecases/retest-world.ts';
import { newParty, openTestRecord, type TestRecord } from './test-record.ts';

let record: TestRecord;
let client: Client;
let world: EveryRetestRow;
let seller: Context;
let buyer: Context;
let stranger: Context;
let adviser: Context;

beforeAll(async () => {
  record = await openTestRecord();
  world = await everyRetestRow(record);
  ({ seller, buyer } = world);
  const party = async (name: string) => ({ ...record.tools, caller: await newParty(record.tools, name) });
  stranger = await party('Sorrel Bend Dairy');
  adviser = await party('Row and Husk Advice');
  const inviter = { ...record.tools, caller: buyer.caller };
  await acceptShare(adviser, await askAdviser(inviter, { agreementId: world.agreementId }));
  client = await record.superuser();
});
afterAll(async () => {
  await client.end();
  await record.close();
});

type Row = Readonly<Record<string, unknown>>;

/** One statement in a transaction of its own, as one of the program's roles for a party. */
async function as(
  { caller }: Pick<Context, 'caller'>,
  sql: string,
  values: readonly unknown[] = [],
  role = 'huskledger_app',
): Promise<readonly Row[]> {
  await client.query('BEGIN');
  try {
    await client.query("SELECT set_config('role', $1, true), set_config('app.party', $2, true)", [
      role,
      caller.partyId,
    ]);
    const { rows } = await client.query<Row>(sql, [...values]);
    await client.query('COMMIT');
    return rows;
  } catch (error) {
    await client.query('ROLLBACK');
    throw error;
  }
}

/** Writes a row as a party; the agreement is filled in. */
async function write(who: Context, table: string, row: Row): Promise<readonly Row[]> {
  const stamped = { agreement_id: world.agreementId, ...row };
  const names = Object.keys(stamped);
  const places = names.map((_, index) => `$${index + 1}`);
  const sql = `INSERT INTO "${table}" (${names.join(', ')}) VALUES (${places.join(', ')})`;
  return await as(who, sql, Object.values(stamped));
}

const recorded = ({ caller }: Context) => ({
  id: v7(),
  by_party_id: caller.partyId,
  recorded_at: '2026-10-09T19:00:00Z',
  recorded_by: caller.personId,
});

const count = async (who: Context, table: string) =>
  (await as(who, `SELECT count(*)::int AS n FROM "${table}"`))[0]?.['n'];

/** Any row that stands, as it is. */
async function standing(table: string, where = 'true'): Promise<Row> {
  const { rows } = await client.query<{ row: Row }>(
    `SELECT to_jsonb(t) AS row FROM "${table}" t WHERE ${where} LIMIT 1`,
  );
  return rows[0]?.row ?? {};
}

/** The same without the table's triggers, so that what they say of it does not come first. */
async function untriggered(table: string, work: () => Promise<void>): Promise<void> {
  await client.query(`ALTER TABLE "${table}" DISABLE TRIGGER USER`);
  try {
    await work();
  } finally {
    await client.query(`ALTER TABLE "${table}" ENABLE TRIGGER USER`);
  }
}

const questioned = (more: Row = {}, who = seller): Row => ({
  ...{ ...recorded(who), about: 'starch', sample_id: world.open.sampleId, first: '54.0', first_version: 1 },
  ...{ claimed: '53.0', reason: 'x', rule: '{}', ...more },
});
const figure = (more: Row = {}, who = buyer): Row => ({
  ...{ ...recorded(who), retest_id: world.open.retestId, tester: 'referee', value: '53.1' },
  ...{ tested_by: 'Bell Reach Referees', part_id: world.open.partId, tested_on: '2026-10-08' },
  ...{ charge: '45', paid_by: 'buyer', report: 'f'.repeat(64), ...more },
});
const proposal = (more: Row = {}, who = buyer): Row => ({
  ...{ ...recorded(who), retest_id: world.open.retestId, ending: 'agree', value: '53.3' },
  ...{ bearer: 'split', reason: 'x', ...more },
});
const ending = (more: Row = {}): Row => {
  const { by_party_id: nobody, ...rest } = recorded(seller);
  return {
    ...{ ...rest, retest_id: world.open.retestId, ending: 'decided', because: 'no-test', value: '54.0' },
    ...{ seller_bears: '0', buyer_bears: '0', changed: '0', documents: '[]', ...more },
  };
};

test('every column is filled in some row, so that each is looked at', async () => {
  const { rows } = await client.query<{ table: string; column: string }>(
    `SELECT table_name AS table, column_name AS column FROM information_schema.columns
     WHERE table_schema = 'public' AND (table_name = ANY($1) OR (table_name = 'hold' AND column_name = 'retest_id'))`,
    [RETEST_TABLES],
  );
  expect(new Set(rows.map(({ table }) => table))).toEqual(new Set([...RETEST_TABLES, 'hold']));
  for (const { table, column } of rows) {
    const filled = await standing(table, `"${column}" IS NOT NULL`);
    expect(filled, `${table}.${column}`).not.toEqual({});
  }
});

describe('what is recorded of questions', () => {
  test.each(RETEST_TABLES)('%s: nobody changes or deletes it', async (table) => {
    for (const sql of [`DELETE FROM "${table}"`, `UPDATE "${table}" SET agreement_id = agreement_id`]) {
      for (const who of [seller, buyer]) await expect(as(who, sql), sql).rejects.toThrow(/permission denied/);
      await expect(client.query(sql), sql).rejects.toThrow(/written once/);
    }
    await expect(as(seller, `TRUNCATE "${table}"`)).rejects.toThrow(/permission denied/);
    await expect(client.query(`TRUNCATE "${table}" CASCADE`)).rejects.toThrow(/written once/);
  });

  test.each(RETEST_TABLES)('%s: both parties see it, a stranger and an adviser do not', async (table) => {
    expect(await count(seller, table)).toBeGreaterThan(0);
    expect(await count(buyer, table)).toBe(await count(seller, table));
    expect(await count(stranger, table)).toBe(0);
    expect(await count(adviser, table)).toBe(0);
  });

  test('an adviser sees the agreement, and none of its questions in the journal', async () => {
    expect(await count(adviser, 'agreement')).toBe(1);
    const kindsOf = async (who: Context) =>
      (await as(who, 'SELECT DISTINCT kind FROM journal_entry')).map(({ kind }) => String(kind));
    const ofQuestions = (kinds: readonly string[]) =>
      kinds.filter((kind) => kind.startsWith('retest')).sort();
    const theirs = await kindsOf(adviser);
    expect(theirs).toContain('load');
    expect(ofQuestions(theirs)).toEqual([]);
    expect(await kindsOf(stranger)).toEqual([]);
    // All kinds but the reminder, which is no entry.
    const all = RETEST_TABLES.map((table) => table.replaceAll('_', '-')).filter(
      (kind) => kind !== 'retest-reminder',
    );
    for (const who of [seller, buyer]) expect(ofQuestions(await kindsOf(who))).toEqual(all.sort());
  });

  test.each(RETEST_TABLES)('%s: neither of them writes it', async (table) => {
    const own = await standing(table);
    await untriggered(table, async () => {
      for (const who of [stranger, adviser]) {
        const named = 'by_party_id' in own ? { by_party_id: who.caller.partyId } : {};
        await expect(write(who, table, { ...own, ...named }), table).rejects.toThrow(/row-level security/);
      }
    });
  });

  test.each(RETEST_TABLES.filter((table) => !['retest_ending', 'retest_reminder'].includes(table)))(
    '%s: not even one of the two in the other’s name',
    async (table) => {
      const own = await standing(table);
      const other = own['by_party_id'] === buyer.caller.partyId ? seller : buyer;
      await untriggered(table, async () => {
        await expect(write(other, table, { ...own, id: v7() })).rejects.toThrow(/by_its_author/);
      });
    },
  );

  test('which questions are open is asked at the door alone', async () => {
    const sql = 'SELECT agreement_id, party_id FROM open_retests()';
    await expect(as(buyer, sql)).rejects.toThrow(/permission denied/);
    const found = { agreement_id: world.agreementId, party_id: buyer.caller.partyId };
    expect(await as(stranger, sql, [], 'huskledger_door')).toEqual([found]);
  });
});

describe('a question', () => {
  test('is the only open one about its figure, whoever asks', async () => {
    for (const who of [seller, buyer])
      await expect(write(who, 'retest', questioned({}, who))).rejects.toThrow(/questioned already/);
    await write(seller, 'retest', questioned({ about: 'ndf' }));
    await expect(write(buyer, 'retest', questioned({ about: 'ndf' }, buyer))).rejects.toThrow(
      /questioned already/,
    );
    const weight = { about: 'weight', sample_id: null, load_id: world.loadId, first: '60000' };
    await write(seller, 'retest', questioned(weight));
    await expect(write(buyer, 'retest', questioned(weight, buyer))).rejects.toThrow(/questioned already/);
  });

  test('may come again about a figure whose question has ended', async () => {
    const { sample_id } = await standing('retest', `id = '${world.over.withdrawn}'`);
    await write(seller, 'retest', questioned({ sample_id }));
    await expect(write(seller, 'retest', questioned({ sample_id }))).rejects.toThrow(/questioned already/);
  });

  test('is about a sample or, of a weight, about a load; and makes another figure of it', async () => {
    const load = { load_id: world.loadId };
    const wrongs: readonly (readonly [Row, RegExp])[] = [
      [{ about: 'adf', sample_id: null }, /retest_subject/],
      [{ about: 'adf', ...load }, /retest_subject/],
      [{ about: 'adf', sample_id: null, ...load }, /retest_subject/],
      [{ about: 'weight' }, /retest_subject/],
      [{ about: 'weight', sample_id: null }, /retest_subject/],
      [{ about: 'adf', claimed: '54.00' }, /retest_claims_another/],
      [{ about: 'adf', sample_id: v7() }, /foreign key/],
    ];
    for (const [wrong, why] of wrongs)
      await expect(write(seller, 'retest', questioned(wrong)), JSON.stringify(wrong)).rejects.toThrow(why);
  });
});

describe('a figure', () => {
  test('is by a known tester, costs nothing less than nothing, and has weights if it is a scale’s', async () => {
    const scale = await standing('retest_figure', "tester = 'second-scale'");
    const { gross, tare, unit, scale_id, scale_version } = scale;
    const weighed = { tester: 'second-scale', gross, tare, unit, scale_id, scale_version };
    const wrongs: readonly (readonly [Row, RegExp])[] = [
      [{ tester: 'neighbour' }, /retest_figure_tester/],
      [{ tester: 'second-scale' }, /retest_figure_scale/],
      [{ ...weighed, tester: 'referee' }, /retest_figure_scale/],
      ...Object.keys(weighed)
        .filter((column) => column !== 'tester')
        .map((column) => [{ ...weighed, [column]: null }, /retest_figure_scale/] as const),
      [{ charge: '-0.01' }, /retest_figure_cost/],
      [{ paid_by: 'referee' }, /retest_figure_cost/],
      [{ part_id: v7() }, /foreign key/],
      [{ ...weighed, scale_version: 7 }, /foreign key/],
      [{ retest_id: v7() }, /foreign key/],
    ];
    for (const [wrong, why] of wrongs)
      await expect(write(buyer, 'retest_figure', figure(wrong)), JSON.stringify(wrong)).rejects.toThrow(why);
    await write(buyer, 'retest_figure', figure());
  });

  test('is confirmed or contested once, by the side that did not enter it, or taken back by the other', async () => {
    const answer = (who: Context, word: string) =>
      write(who, 'retest_figure_answer', {
        ...recorded(who),
        figure_id: world.open.figureId,
        answer: word,
      });
    for (const word of ['confirm', 'contest'])
      await expect(answer(buyer, word)).rejects.toThrow(/other side confirms or contests/);
    await expect(answer(seller, 'withdraw')).rejects.toThrow(/whoever entered it takes it back/);
    await expect(answer(seller, 'burn')).rejects.toThrow(/retest_figure_answer_word/);
    await answer(seller, 'confirm');
    await expect(answer(seller, 'contest')).rejects.toThrow(/duplicate key/);
  });
});

describe('an ending', () => {
  test('is proposed as one of two, with a figure where both are to take one', async () => {
    const wrongs: readonly Row[] = [
      { ending: 'decide' },
      { ending: 'agree', value: null },
      { ending: 'withdraw' },
      { bearer: 'referee' },
    ];
    for (const wrong of wrongs)
      await expect(write(buyer, 'retest_proposal', proposal(wrong)), JSON.stringify(wrong)).rejects.toThrow(
        /retest_proposal_ending/,
      );
    await write(buyer, 'retest_proposal', proposal());
  });

  test('has a known word, and costs nobody less than nothing', async () => {
    // Where both have confirmed one, only its own word is left to refuse.
    const met = { retest_id: world.over.agreed };
    for (const wrong of [{ ...met, ending: 'given' }, { seller_bears: '-0.01' }, { buyer_bears: '-0.01' }])
      await expect(write(seller, 'retest_ending', ending(wrong)), JSON.stringify(wrong)).rejects.toThrow(
        /retest_ending_word/,
      );
  });

  test('that no rule decided is proposed by one side and confirmed by the other, once', async () => {
    const answer = (who: Context, word: string) =>
      write(who, 'retest_proposal_answer', {
        ...recorded(who),
        proposal_id: world.open.proposalId,
        answer: word,
      });
    const end = (word: string) => write(buyer, 'retest_ending', ending({ ending: word }));
    for (const word of ['withdrawn', 'agreed']) await expect(end(word)).rejects.toThrow(/Both sides confirm/);
    for (const word of ['confirmed', 'refused'])
      await expect(answer(buyer, word)).rejects.toThrow(/other side confirms or refuses/);
    await expect(answer(seller, 'withdrawn')).rejects.toThrow(/whoever proposed it takes it back/);
    await expect(answer(seller, 'burnt')).rejects.toThrow(/retest_proposal_answer_word/);
    await answer(seller, 'confirmed');
    await expect(answer(seller, 'refused')).rejects.toThrow(/duplicate key/);
    // They agreed on a figure; neither has withdrawn.
    await expect(end('withdrawn')).rejects.toThrow(/Both sides confirm/);
  });

  test('a proposal that was refused ends nothing', async () => {
    const [row] = await as(
      buyer,
      `SELECT retest_id FROM retest_proposal p JOIN retest_proposal_answer a ON a.proposal_id = p.id
       WHERE answer = 'refused'`,
    );
    // Both confirmed another one about this question: a withdrawal was neither refused nor confirmed.
    await expect(write(buyer, 'retest_ending', ending({ ...row, ending: 'withdrawn' }))).rejects.toThrow(
      /Both sides confirm/,
    );
    const own = { retest_id: (await standing('retest', "about = 'ndf'"))['id'] };
    const asked = proposal({ ...own, ending: 'withdraw', value: null }, seller);
    await write(seller, 'retest_proposal', asked);
    const refusal = { ...recorded(buyer), proposal_id: asked['id'], answer: 'refused' };
    await write(buyer, 'retest_proposal_answer', refusal);
    await expect(write(seller, 'retest_ending', ending({ ...own, ending: 'withdrawn' }))).rejects.toThrow(
      /Both sides confirm/,
    );
  });

  test('comes once, and nothing after it', async () => {
    for (const retest_id of Object.values(world.over)) {
      await expect(write(buyer, 'retest_ending', ending({ retest_id }))).rejects.toThrow(/duplicate key/);
      await expect(write(buyer, 'retest_figure', figure({ retest_id }))).rejects.toThrow(/is decided/);
      await expect(write(buyer, 'retest_proposal', proposal({ retest_id }))).rejects.toThrow(/is decided/);
    }
  });
});

describe('what a question holds', () => {
  const hold = async (more: Row, who: Context): Promise<Row> => {
    const { document_id } = await standing('hold', `retest_id = '${world.open.retestId}'`);
    return { ...recorded(who), document_id, amount: '0.01', reason: 'x', ...more };
  };

  test('is held in the name of whoever asked, by whichever side writes it', async () => {
    const retest_id = world.open.retestId;
    for (const who of [seller, buyer]) {
      const named = { retest_id, by_party_id: seller.caller.partyId };
      await expect(write(who, 'hold', await hold(named, who))).rejects.toThrow(/by_its_author/);
      await write(who, 'hold', await hold({ retest_id, by_party_id: buyer.caller.partyId }, who));
    }
    const another = await hold({ by_party_id: buyer.caller.partyId }, seller);
    await expect(write(seller, 'hold', another)).rejects.toThrow(/by_its_author/);
    for (const who of [stranger, adviser]) {
      const theirs = await hold({ retest_id, by_party_id: buyer.caller.partyId }, who);
      await expect(write(who, 'hold', theirs)).rejects.toThrow(/row-level security/);
    }
  });

  test('waits for one thing at most', async () => {
    const both = await hold({ retest_id: world.open.retestId, correction_id: v7() }, buyer);
    await expect(write(buyer, 'hold', both)).rejects.toThrow(/hold_waits_for_one/);
  });
});

test('no row points into another agreement', async () => {
  const parties = { seller: seller.caller, buyer: buyer.caller };
  const retest = { askWithinDays: '9', fee: 'split', measures: { weight: { method: 'second-scale' } } };
  const second = await retestWorld(record, { retest, parties });
  const elsewhere = { agreement_id: second.agreementId };
  const rows: readonly (readonly [string, Row])[] = [
    ['retest', questioned({ about: 'adf' })],
    ['retest_figure', figure({}, seller)],
    ['retest_figure_answer', { ...recorded(seller), figure_id: world.open.figureId, answer: 'confirm' }],
    ['retest_proposal', proposal({}, seller)],
    ['retest_ending', ending()],
    ['retest_reminder', { retest_id: world.open.retestId, due_on: '2026-10-20', reminded_at: '2026-10-18' }],
  ];
  for (const [table, row] of rows)
    await expect(write(seller, table, { ...row, ...elsewhere }), table).rejects.toThrow(/foreign key/);
  const answer = { ...recorded(seller), proposal_id: world.open.proposalId, answer: 'confirmed' };
  await expect(write(seller, 'retest_proposal_answer', { ...answer, ...elsewhere })).rejects.toThrow(
    /foreign key/,
  );
});
