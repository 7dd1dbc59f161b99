/**
 * What workers have said of a record's requests, and whether the record keeps it: what was answered is there, what was
 * only asked is there whole or not at all, and nothing is there that nobody asked.
 */
import type { Transaction } from '../../../src/store/open-store.ts';
import type { Tools } from '../../../src/usecases/context.ts';
import { verifyRecord } from '../../../src/usecases/verify/verify-record.ts';
import type { Answer, Asked, Said } from './said.ts';

export interface Word {
  readonly asked: Map<string, Asked>;
  readonly answered: Map<string, Answer>;
}

export function newWord(): Word {
  return { asked: new Map(), answered: new Map() };
}

/** Takes in what a worker said. Throws where one key was answered twice, and differently. */
export function takeIn({ asked, answered }: Word, said: readonly Said[]): void {
  for (const line of said) {
    if (line.said === 'asking') asked.set(line.asked.key, line.asked);
    if (line.said !== 'answered') continue;
    const before = answered.get(line.key);
    if (before && JSON.stringify(before) !== JSON.stringify(line.answer)) {
      throw new Error(`${line.key} was answered twice: ${JSON.stringify([before, line.answer])}`);
    }
    answered.set(line.key, line.answer);
  }
}

/** What was asked and not answered. */
export function openQuestions({ asked, answered }: Word): Asked[] {
  return [...asked.values()].filter(({ key }) => !answered.has(key));
}

/** Every way in which the record does not keep its word; in words. */
export async function brokenWords(tools: Tools, word: Word): Promise<string[]> {
  const verified = await verifyRecord(tools);
  const faults = verified.faults.map(({ agreement, row, message }) => `${agreement}: ${row} ${message}`);
  const found = await tools.store.forAudit(readKept);
  const halves = found.halves.map(({ what, count }) => `${count} ${what}`);
  return [...faults, ...halves, ...comparedWith(word, found)];
}

interface Kept {
  /** Answers by key. */
  readonly requests: ReadonlyMap<string, string>;
  /** Loads, results and settled loads with how many journal entries each has. */
  readonly entries: ReadonlyMap<string, number>;
  /** How many settlements each ticket of an agreement has. */
  readonly settlements: ReadonlyMap<string, number>;
  /** Ids by ticket and by sample, of each agreement. */
  readonly tickets: ReadonlyMap<string, string>;
  readonly samples: ReadonlyMap<string, string>;
  readonly halves: readonly { readonly what: string; readonly count: number }[];
}

async function readKept(tx: Transaction): Promise<Kept> {
  const pairs = async <Value>(sql: string): Promise<Map<string, Value>> => {
    const rows = await tx.$queryRawUnsafe<{ name: string; value: Value }[]>(sql);
    return new Map(rows.map(({ name, value }) => [name, value]));
  };
  return {
    requests: await pairs('SELECT key AS name, answer AS value FROM request'),
    entries: await pairs(
      `SELECT id::text AS name, count(e.sequence)::int AS value
       FROM (SELECT agreement_id, id FROM load UNION ALL SELECT agreement_id, id FROM result) r
       LEFT JOIN journal_entry e ON e.agreement_id = r.agreement_id AND e.subject_id = r.id GROUP BY id`,
    ),
    settlements: await pairs(
      `SELECT l.agreement_id || ' ' || l.ticket AS name, count(*)::int AS value
       FROM settlement t JOIN load l ON l.agreement_id = t.agreement_id AND l.id = t.load_id GROUP BY name`,
    ),
    tickets: await pairs(`SELECT agreement_id || ' ' || ticket AS name, id::text AS value FROM load`),
    samples: await pairs(
      `SELECT s.agreement_id || ' ' || s.name AS name, r.id::text AS value
       FROM sample s JOIN result r ON r.agreement_id = s.agreement_id AND r.sample_id = s.id`,
    ),
    halves: await tx.$queryRawUnsafe(
      `SELECT * FROM (VALUES
        ('settlements without a line', (SELECT count(*)::int FROM settlement t WHERE status = 'settled' AND NOT EXISTS (
          SELECT FROM settlement_line n WHERE n.agreement_id = t.agreement_id AND n.settlement_id = t.id))),
        ('journal entries without what they are about', (SELECT count(*)::int FROM journal_entry e
          WHERE kind = 'settlement' AND NOT EXISTS (
            SELECT FROM settlement t WHERE t.agreement_id = e.agreement_id AND t.id = e.subject_id))),
        ('loads whose sample is gone', (SELECT count(*)::int FROM load l WHERE NOT EXISTS (
          SELECT FROM sample_load s WHERE s.agreement_id = l.agreement_id AND s.load_id = l.id))),
        ('requests without their audit, or the other way round',
          abs((SELECT count(*) FROM request) - (SELECT count(*) FROM audit))::int)
       ) AS halves (what, count) WHERE count > 0`,
    ),
  };
}

function comparedWith({ asked, answered }: Word, kept: Kept): string[] {
  const faults: string[] = [];
  for (const key of kept.requests.keys()) {
    // What the test recorded itself, before its workers.
    if (!asked.has(key) && !/-(agreement|quotes)$/.test(key)) faults.push(`${key} is there; nobody asked it`);
  }
  for (const [key, question] of asked) {
    const [said, stands] = [answered.get(key), kept.requests.get(key)];
    if (said && stands !== JSON.stringify(said)) {
      faults.push(`${key} was answered ${JSON.stringify(said)}; recorded is ${stands ?? 'nothing'}`);
    }
    faults.push(...rowsOf(question, stands, kept));
  }
  return faults;
}

/** The rows of a request are there, each with its entry, where the request is; else none is. */
function rowsOf(asked: Asked, stands: string | undefined, kept: Kept): string[] {
  if (asked.verb === 'settle') {
    const counts = asked.tickets.map((ticket) => kept.settlements.get(`${asked.agreementId} ${ticket}`) ?? 0);
    // Whoever settles all that are ready may have come first.
    const least = stands === undefined ? 0 : 1;
    const fit = counts.every((count) => count >= least && count <= 1);
    return fit ? [] : [`${asked.key}: its loads have ${counts.join(', ')} settlements`];
  }
  const [names, column] = asked.verb === 'record-loads' ? [kept.tickets, 'ticket'] : [kept.samples, 'sample'];
  const ids = asked.rows.map((row) => names.get(`${asked.agreementId} ${row[column]}`));
  const answered = stands === undefined ? [] : (JSON.parse(stands) as { id: string }[]);
  const expected = asked.rows.map((_, index) => answered[index]?.id);
  return ids.flatMap((id, index) => {
    const row = `${asked.key}: row ${index + 1}`;
    if (id !== expected[index])
      return [`${row} is ${id ?? 'not there'}, answered ${expected[index] ?? 'not'}`];
    if (id !== undefined && kept.entries.get(id) !== 1) return [`${row} has no entry of its own`];
    return [];
  });
}
