/**
 * The journal of an agreement: its head, new entries with their postings, and balances.
 */
import { CHAIN_START, type ChainHead, type Entry } from '../../journal/chain.ts';
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';

/** The last entry of an agreement's chain. Read it under the agreement's lock before chaining to it. */
export async function readChainHead(tx: Transaction, agreementId: string): Promise<ChainHead> {
  const [head] = await tx.$queryRawUnsafe<ChainHead[]>(
    'SELECT sequence, fingerprint FROM chain_head($1::uuid)',
    agreementId,
  );
  return head ?? CHAIN_START;
}

/** Writes entries with their postings. The database refuses them where they do not follow on or do not balance. */
export async function insertEntries(
  tx: Transaction,
  entries: readonly Entry[],
  stamp: { readonly agreementId: string; readonly postedAt: string; readonly postedBy: string },
): Promise<void> {
  const { agreementId, postedAt, postedBy } = stamp;
  await insertRows(tx, 'journal_entry', {
    agreement_id: ['uuid', entries.map(() => agreementId)],
    sequence: ['int', entries.map(({ sequence }) => sequence)],
    kind: ['text', entries.map(({ kind }) => kind)],
    subject_id: ['uuid', entries.map(({ subjectId }) => subjectId)],
    document: ['text', entries.map(({ document }) => document)],
    previous: ['text', entries.map(({ previous }) => previous)],
    fingerprint: ['text', entries.map(({ fingerprint }) => fingerprint)],
    posted_at: ['timestamptz', entries.map(() => postedAt)],
    posted_by: ['uuid', entries.map(() => postedBy)],
  });
  const postings = entries.flatMap(({ sequence, postings }) =>
    postings.map((posting, place) => ({ sequence, place, ...posting })),
  );
  await insertRows(tx, 'posting', {
    agreement_id: ['uuid', postings.map(() => agreementId)],
    sequence: ['int', postings.map(({ sequence }) => sequence)],
    place: ['int', postings.map(({ place }) => place)],
    account: ['text', postings.map(({ account }) => account)],
    unit: ['text', postings.map(({ unit }) => unit)],
    amount: ['numeric', postings.map(({ amount }) => amount)],
  });
}

export interface BalanceRow {
  readonly agreementId: string;
  readonly account: string;
  readonly unit: string;
  readonly balance: string;
}

/** The balances of all agreements that the transaction may see. */
export async function readBalances(tx: Transaction): Promise<readonly BalanceRow[]> {
  return await tx.$queryRawUnsafe<BalanceRow[]>(
    `SELECT agreement_id AS "agreementId", account, unit, balance::text FROM account_balance
     ORDER BY agreement_id, account, unit`,
  );
}

/** The balances of one agreement. */
export async function readAgreementBalances(
  tx: Transaction,
  agreementId: string,
): Promise<readonly BalanceRow[]> {
  return await tx.$queryRawUnsafe<BalanceRow[]>(
    `SELECT agreement_id AS "agreementId", account, unit, balance::text FROM account_balance
     WHERE agreement_id = $1::uuid ORDER BY account, unit`,
    agreementId,
  );
}

/** What one entry posted to one account of money, with the fact that it is about. */
export interface MoneyPostingRow {
  readonly agreementId: string;
  readonly sequence: number;
  readonly kind: string;
  /** ISO 8601, UTC. */
  readonly postedAt: string;
  readonly account: string;
  readonly amount: string;
  readonly fact: Readonly<Record<string, unknown>>;
}

/** Everything that agreements posted in a currency, in the order of their journals. */
export async function readMoneyPostings(
  tx: Transaction,
  agreementIds: readonly string[],
  currency: string,
): Promise<readonly MoneyPostingRow[]> {
  return await tx.$queryRawUnsafe<MoneyPostingRow[]>(
    `SELECT e.agreement_id AS "agreementId", e.sequence, e.kind,
       to_char(e.posted_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "postedAt",
       p.account, p.amount::text, (e.document::json)->'fact' AS fact
     FROM journal_entry e JOIN posting p ON p.agreement_id = e.agreement_id AND p.sequence = e.sequence
     WHERE e.agreement_id = ANY($1::uuid[]) AND p.unit = $2 ORDER BY e.posted_at, e.agreement_id, e.sequence, p.place`,
    agreementIds,
    currency,
  );
}
