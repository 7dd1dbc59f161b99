/**
 * What the database itself holds, tried with raw SQL: as the program's own roles, and where a trigger must hold against
 * the tables' owner too, as that owner. Each of these fails if its guard is taken out of the migrations.
 */
import type { Client } from 'pg';
import { v7 } from 'uuid';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { entryFingerprint } from '../../src/journal/chain.ts';
import type { Caller } from '../../src/usecases/context.ts';
import { MONEY_TABLES } from '../usecases/every-money-row.ts';
import { RETEST_TABLES } from '../usecases/every-retest-row.ts';
import { importTogether, newParty, openTestRecord, type TestRecord } from './test-record.ts';

let record: TestRecord;
let client: Client;
let seller: Caller;
let stranger: Caller;
let agreementId: string;

beforeAll(async () => {
  record = await openTestRecord();
  seller = await newParty(record.tools, 'Oddmeadow Farm');
  const buyer = await newParty(record.tools, 'Lanternfield Dairy');
  stranger = await newParty(record.tools, 'Sorrel Bend Dairy');
  const imported = await importTogether(record.tools, {
    folder: 'demo/bushels-dry',
    seller,
    buyer,
  });
  agreementId = imported.agreementId ?? '';
  client = await record.superuser();
});
afterAll(async () => {
  await client.end();
  await record.close();
});

type Work = (
  query: (sql: string, values?: readonly unknown[]) => Promise<readonly Record<string, unknown>[]>,
) => Promise<void>;

/** Runs statements in one transaction as a role for a party; `commit` to have it end as the program's would. */
async function as(role: string, party: string, work: Work): Promise<void> {
  await client.query('BEGIN');
  try {
    await client.query("SELECT set_config('role', $1, true), set_config('app.party', $2, true)", [
      role,
      party,
    ]);
    await work(async (sql, values = []) => (await client.query(sql, [...values])).rows);
    await client.query('COMMIT');
  } catch (error) {
    await client.query('ROLLBACK');
    throw error;
  }
}

async function names(sql: string): Promise<string[]> {
  const { rows } = await client.query<{ name: string }>(sql);
  return rows.map(({ name }) => name).sort();
}

/** Tables of ours, from the database's own catalogue: one that is added is tried too. */
const TABLES = `SELECT relname AS name FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
  WHERE n.nspname = 'public' AND relkind = 'r' AND relname <> '_prisma_migrations'`;
/** What only weighing, sampling and putting right fill: tried in scale-house-guards.test.ts. */
const OF_SCALE_HOUSES = [
  'correction',
  'correction_answer',
  'load_version',
  'open_weighing',
  'part_handover',
  'record_file',
  'result_answer',
  'sample_part',
  'sample_taking',
  'scale',
  'scale_version',
  'series_terms',
  'spent_ticket',
  'ticket_series',
];
/** What only money fills: tried in money-guards.test.ts. */
const OF_MONEY = [...MONEY_TABLES, 'payee_account'];
/** What only questions fill: tried in retest-guards.test.ts. */
const OF_RETESTS = [...RETEST_TABLES];
/** What only a buyer's silos fill: tried in tests/usecases/silos.test.ts. */
const OF_STORAGE = ['silo', 'silo_entry'];
/** Of closing a season: tried in own-lists.test.ts, lists-compared.test.ts, accepted-rows.test.ts, season-close.test.ts and
 * season-note-guards.test.ts. */
const OF_CLOSE = [
  'own_list',
  'list_consent',
  'accepted_row',
  'season_close',
  'season_signature',
  'season_seal',
  'season_note',
  'season_note_answer',
];
/** What only bargaining fills: tried in offer-guards.test.ts. */
const OF_OFFERS = [
  'advice',
  'advice_draft',
  'advice_note',
  'agreement_closing',
  'lot_address',
  'lot_file',
  'lot_guest',
  'lot_version',
  'offer',
  'offer_ending',
  'offer_version',
  'signature',
  'signing',
];
const OF_AGREEMENTS = `SELECT table_name AS name FROM information_schema.columns
  WHERE table_schema = 'public' AND column_name = 'agreement_id' AND table_name NOT IN ('unbalanced_entry', 'share_link')`;

describe('roles', () => {
  test('own nothing, are no superusers, cannot log in and pass by no policy', async () => {
    const { rows } = await client.query(
      `SELECT rolname, rolsuper, rolbypassrls, rolcanlogin, rolcreaterole, rolcreatedb,
         (SELECT count(*)::int FROM pg_class WHERE relowner = r.oid) AS owns
       FROM pg_roles r WHERE rolname LIKE 'huskledger%' ORDER BY rolname`,
    );
    const powerless = {
      rolsuper: false,
      rolbypassrls: false,
      rolcanlogin: false,
      rolcreaterole: false,
      rolcreatedb: false,
      owns: 0,
    };
    expect(rows).toEqual([
      { rolname: 'huskledger_app', ...powerless },
      { rolname: 'huskledger_door', ...powerless },
      { rolname: 'huskledger_public', ...powerless },
    ]);
  });

  test('may not make tables, or reach what the other one may', async () => {
    await expect(as('huskledger_app', '', (q) => q('CREATE TABLE x (y int)').then())).rejects.toThrow(
      /permission denied/,
    );
    for (const table of ['session', 'sign_in_try', 'invitation', 'share_link']) {
      await expect(as('huskledger_app', '', (q) => q(`SELECT FROM ${table}`).then())).rejects.toThrow(
        /permission denied/,
      );
    }
    await expect(
      as('huskledger_app', '', (q) => q('SELECT password_hash FROM person').then()),
    ).rejects.toThrow(/permission denied/);
    for (const table of await names(OF_AGREEMENTS)) {
      await expect(as('huskledger_door', '', (q) => q(`SELECT FROM "${table}"`).then())).rejects.toThrow(
        /permission denied/,
      );
    }
  });
});

describe('rows of a party', () => {
  test('every table has row-level security', async () => {
    const all = await names(TABLES);
    expect(all.length).toBeGreaterThan(20);
    expect(await names(`${TABLES} AND relrowsecurity`)).toEqual(all);
  });

  test('are seen by the two parties of an agreement, and by nobody else', async () => {
    const tables = await names(OF_AGREEMENTS);
    const count = async (party: string) => {
      const found: Record<string, unknown> = {};
      await as('huskledger_app', party, async (query) => {
        for (const table of tables)
          found[table] = (await query(`SELECT count(*)::int AS n FROM "${table}"`))[0]?.['n'];
      });
      return found;
    };
    const mine = await count(seller.partyId);
    const empty = [
      'election',
      'choice',
      'laboratory_access',
      ...OF_OFFERS,
      ...OF_SCALE_HOUSES,
      ...OF_MONEY,
      ...OF_RETESTS,
      ...OF_CLOSE,
      ...OF_STORAGE,
    ];
    for (const table of tables) if (!empty.includes(table)) expect(mine[table], table).toBeGreaterThan(0);
    const none = Object.fromEntries(tables.map((table) => [table, 0]));
    expect(await count(stranger.partyId)).toEqual(none);
    expect(await count('')).toEqual(none);
  });

  test('a stranger writes into no agreement, and a party into no other party', async () => {
    const loadId = v7();
    const insertLoad: Work = async (query) => {
      await query(
        `INSERT INTO load (agreement_id, id, ticket, delivered_at, delivered_on, gross, tare, unit, recorded_at, recorded_by)
         VALUES ($1, $2, 'X', now(), '2026-10-01', 2, 1, 'lb', now(), $2)`,
        [agreementId, loadId],
      );
    };
    await expect(as('huskledger_app', stranger.partyId, insertLoad)).rejects.toThrow(/row-level security/);
    await expect(
      as('huskledger_app', stranger.partyId, (query) =>
        query(`INSERT INTO audit (id, party_id, person_id, verb, subject) VALUES ($1, $2, $1, 'read', 'x')`, [
          v7(),
          seller.partyId,
        ]).then(),
      ),
    ).rejects.toThrow(/row-level security/);
  });

  test('no row points into another agreement', async () => {
    const { rows } = await client.query<{ id: string }>('SELECT id FROM load LIMIT 1');
    const other = v7();
    await expect(
      as('huskledger_app', stranger.partyId, async (query) => {
        await query(`INSERT INTO agreement (id, seller_id, buyer_id, number) VALUES ($1, $2, $3, 'X-1')`, [
          other,
          stranger.partyId,
          seller.partyId,
        ]);
        // The stranger's own agreement, but a load of the other one.
        await query(
          `INSERT INTO choice (agreement_id, id, load_id, choice, recorded_at, recorded_by)
           VALUES ($1, $2, $3, 'refuse', now(), $2)`,
          [other, v7(), rows[0]?.id],
        );
      }),
    ).rejects.toThrow(/foreign key/);
  });
});

describe('what is recorded', () => {
  const written = [
    'agreement',
    'agreement_version',
    'series',
    'quote',
    'load',
    'sample',
    'sample_load',
    'result',
    'election',
    'choice',
    'settlement',
    'settlement_line',
    'settlement_price',
    'settlement_quote',
    'journal_entry',
    'posting',
    'request',
    'audit',
  ];

  test('is in tables that are all accounted for', async () => {
    const kept = [
      'advice',
      'api_token',
      'laboratory_access',
      'ticket_taken',
      'lot',
      'lot_distance',
      'notice',
      'kept_match',
      'party_place',
      'public_listing',
      'share_link',
      'party',
      'person',
      'member',
      'invitation',
      'session',
      'sign_in_try',
      'account_balance',
      'unbalanced_entry',
    ];
    const offered = OF_OFFERS.filter((table) => table !== 'advice');
    expect(
      [
        ...written,
        ...offered,
        ...OF_SCALE_HOUSES,
        ...OF_MONEY,
        ...OF_RETESTS,
        ...OF_CLOSE,
        ...OF_STORAGE,
        ...kept,
      ].sort(),
    ).toEqual(await names(TABLES));
  });

  test.each(written)('%s: the program may not update or delete', async (table) => {
    for (const sql of [
      `DELETE FROM "${table}"`,
      `TRUNCATE "${table}"`,
      `UPDATE "${table}" SET ${await firstColumn(table)}`,
    ]) {
      await expect(
        as('huskledger_app', seller.partyId, (q) => q(sql).then()),
        sql,
      ).rejects.toThrow(/permission denied/);
    }
  });

  test.each(written.filter((table) => !['election', 'choice', 'request'].includes(table)))(
    '%s: nor may the owner of the table',
    async (table) => {
      for (const sql of [
        `DELETE FROM "${table}"`,
        `TRUNCATE "${table}" CASCADE`,
        `UPDATE "${table}" SET ${await firstColumn(table)}`,
      ]) {
        await expect(client.query(sql), sql).rejects.toThrow(/written once/);
      }
    },
  );

  test('balances are the database’s to keep', async () => {
    for (const sql of [
      'UPDATE account_balance SET balance = 0',
      'DELETE FROM account_balance',
      `INSERT INTO account_balance VALUES ('${agreementId}', 'x', 'USD', 1, 1)`,
    ]) {
      await expect(as('huskledger_app', seller.partyId, (q) => q(sql).then())).rejects.toThrow(
        /permission denied/,
      );
    }
  });

  async function firstColumn(table: string): Promise<string> {
    const [name] = await names(
      `SELECT column_name AS name FROM information_schema.columns WHERE table_name = '${table}' AND ordinal_position = 1`,
    );
    return `"${name}" = "${name}"`;
  }
});

describe('a settlement', () => {
  test('is the only first one of its load, and versions leave no gap', async () => {
    const copy =
      (version: string, supersedes: string): Work =>
      (query) =>
        query(
          `INSERT INTO settlement SELECT agreement_id, $1, load_id, ${version}, ${supersedes}, agreement_version_id, result_id,
           status, currency, total, settled_at, settled_by FROM settlement WHERE version = 1 ORDER BY id LIMIT 1`,
          [v7()],
        ).then();
    const app = (work: Work) => as('huskledger_app', seller.partyId, work);
    await expect(app(copy('1', 'NULL'))).rejects.toThrow(/duplicate key/);
    await expect(app(copy('3', '2'))).rejects.toThrow(/foreign key/);
    await expect(app(copy('2', 'NULL'))).rejects.toThrow(/settlement_follows/);
    await expect(app(copy('3', '1'))).rejects.toThrow(/settlement_follows/);
    await expect(app(copy('0', '-1'))).rejects.toThrow(/settlement_follows/);
  });
});

describe('the journal', () => {
  /** Writes an entry that follows the last, with postings of these amounts. */
  async function enter(
    query: Parameters<Work>[0],
    postings: readonly (readonly [string, string, string])[],
    change: Partial<{ sequence: number; previous: string; fingerprint: string }> = {},
  ): Promise<number> {
    const [head] = await query(
      'SELECT sequence, fingerprint FROM journal_entry WHERE agreement_id = $1 ORDER BY sequence DESC LIMIT 1',
      [agreementId],
    );
    const sequence = change.sequence ?? Number(head?.['sequence']) + 1;
    const previous = change.previous ?? String(head?.['fingerprint']);
    const fingerprint = change.fingerprint ?? entryFingerprint(previous, '{}');
    await query(
      `INSERT INTO journal_entry (agreement_id, sequence, kind, subject_id, document, previous, fingerprint, posted_at, posted_by)
       VALUES ($1, $2, 'load', $3, '{}', $4, $5, now(), $3)`,
      [agreementId, sequence, v7(), previous, fingerprint],
    );
    for (const [index, [account, unit, amount]] of postings.entries())
      await post(query, sequence, index, [account, unit, amount]);
    return sequence;
  }
  async function post(
    query: Parameters<Work>[0],
    sequence: number,
    place: number,
    [account, unit, amount]: readonly [string, string, string],
  ) {
    await query(
      'INSERT INTO posting (agreement_id, sequence, place, account, unit, amount) VALUES ($1, $2, $3, $4, $5, $6)',
      [agreementId, sequence, place, account, unit, amount],
    );
  }
  const app = (work: Work) => as('huskledger_app', seller.partyId, work);
  const balanced = [
    ['feed-waiting', 'USD', '1.00'],
    ['feed-delivered', 'USD', '-1.00'],
  ] as const;

  test('takes what follows on and balances', async () => {
    // Taken back at the end, since nothing that is written can be.
    await expect(
      app(async (query) => {
        await enter(query, balanced);
        throw new Error('taken back');
      }),
    ).rejects.toThrow('taken back');
  });

  test('refuses an entry that does not balance, when its transaction ends', async () => {
    await expect(
      app(async (query) => {
        await enter(query, [
          ['a', 'USD', '1.00'],
          ['b', 'USD', '-0.99'],
        ]);
      }),
    ).rejects.toThrow(/balance/);
    await expect(
      app(async (query) => {
        await enter(query, [
          ['a', 'USD', '1'],
          ['b', 'EUR', '-1'],
        ]);
      }),
    ).rejects.toThrow(/balance/);
  });

  test('refuses it too where the check was called for early', async () => {
    await expect(
      app(async (query) => {
        const sequence = await enter(query, balanced);
        await query('SET CONSTRAINTS ALL IMMEDIATE');
        await post(query, sequence, 2, ['c', 'USD', '5']);
      }),
    ).rejects.toThrow(/balance/);
  });

  test('refuses postings that join an entry of an earlier transaction', async () => {
    await expect(app((query) => post(query, 1, 7, ['a', 'USD', '0']))).rejects.toThrow(/posted already/);
  });

  test('refuses an entry out of its place in the chain', async () => {
    const out: Partial<{ sequence: number; previous: string; fingerprint: string }>[] = [
      { sequence: 1_000_000 },
      { previous: 'f'.repeat(64) },
      { sequence: 0 },
      { sequence: 1 },
    ];
    for (const change of out)
      await expect(
        app(async (query) => {
          await enter(query, balanced, change);
        }),
      ).rejects.toThrow(/follow|duplicate|counts/);
    await expect(
      app(async (query) => {
        await enter(query, balanced, { fingerprint: 'f'.repeat(64) });
      }),
    ).rejects.toThrow(/fingerprint/);
  });
});

test('an agreement’s document is what its fingerprint says', async () => {
  await expect(
    as('huskledger_app', seller.partyId, (query) =>
      query(
        `INSERT INTO agreement_version SELECT agreement_id, $1, 2, document || ' ', fingerprint, recorded_at, recorded_by FROM agreement_version LIMIT 1`,
        [v7()],
      ).then(),
    ),
  ).rejects.toThrow(/agreement_version_fingerprint/);
});

test('what another connection set does not switch the guards off', async () => {
  // The embedded engine has one session for all its connections.
  await client.query('SET session_replication_role = replica');
  try {
    const [setting] = await record.store.forParty(
      seller.partyId,
      (tx) => tx.$queryRaw<{ role: string }[]>`SELECT current_setting('session_replication_role') AS role`,
    );
    expect(setting?.role).toBe('origin');
  } finally {
    await client.query('RESET session_replication_role');
  }
});
