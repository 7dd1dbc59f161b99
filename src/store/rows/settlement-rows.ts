/**
 * Settlements with their lines, prices and the quotes that they rest on.
 */
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';

export interface SettlementLineRow {
  readonly label: string;
  readonly quantity: string;
  readonly unit: string;
  readonly rate: string;
  readonly amount: string;
  readonly how: string;
}

export interface SettlementPriceRow {
  readonly reference: string;
  readonly price: string;
  readonly quote: string;
}

export interface SettlementRow {
  readonly id: string;
  readonly loadId: string;
  readonly version: number;
  readonly agreementVersionId: string;
  /** The version of the ticket. */
  readonly loadVersion: number;
  readonly resultId: string | null;
  readonly status: 'settled' | 'refused';
  readonly currency: string;
  readonly total: string;
  readonly settledAt: string;
  readonly settledBy: string;
  readonly lines: readonly SettlementLineRow[];
  readonly prices: readonly SettlementPriceRow[];
  /** In order of id. */
  readonly quoteIds: readonly string[];
}

/** Writes settlements of one agreement. Fails as a whole where one of its loads has been settled meanwhile. */
export async function insertSettlements(
  tx: Transaction,
  agreementId: string,
  settlements: readonly SettlementRow[],
): Promise<void> {
  await insertRows(tx, 'settlement', {
    agreement_id: ['uuid', settlements.map(() => agreementId)],
    id: ['uuid', settlements.map(({ id }) => id)],
    load_id: ['uuid', settlements.map(({ loadId }) => loadId)],
    version: ['int', settlements.map(({ version }) => version)],
    supersedes: ['int', settlements.map(({ version }) => (version === 1 ? null : version - 1))],
    agreement_version_id: ['uuid', settlements.map(({ agreementVersionId }) => agreementVersionId)],
    load_version: ['int', settlements.map(({ loadVersion }) => loadVersion)],
    result_id: ['uuid', settlements.map(({ resultId }) => resultId)],
    status: ['text', settlements.map(({ status }) => status)],
    currency: ['text', settlements.map(({ currency }) => currency)],
    total: ['numeric', settlements.map(({ total }) => total)],
    settled_at: ['timestamptz', settlements.map(({ settledAt }) => settledAt)],
    settled_by: ['uuid', settlements.map(({ settledBy }) => settledBy)],
  });
  const lines = settlements.flatMap(({ id, lines }) => lines.map((line, place) => ({ id, place, ...line })));
  await insertRows(tx, 'settlement_line', {
    agreement_id: ['uuid', lines.map(() => agreementId)],
    settlement_id: ['uuid', lines.map(({ id }) => id)],
    place: ['int', lines.map(({ place }) => place)],
    label: ['text', lines.map(({ label }) => label)],
    quantity: ['numeric', lines.map(({ quantity }) => quantity)],
    unit: ['text', lines.map(({ unit }) => unit)],
    rate: ['numeric', lines.map(({ rate }) => rate)],
    amount: ['numeric', lines.map(({ amount }) => amount)],
    how: ['text', lines.map(({ how }) => how)],
  });
  const prices = settlements.flatMap(({ id, prices }) => prices.map((price) => ({ id, ...price })));
  await insertRows(tx, 'settlement_price', {
    agreement_id: ['uuid', prices.map(() => agreementId)],
    settlement_id: ['uuid', prices.map(({ id }) => id)],
    reference: ['text', prices.map(({ reference }) => reference)],
    price: ['numeric', prices.map(({ price }) => price)],
    quote: ['numeric', prices.map(({ quote }) => quote)],
  });
  const quotes = settlements.flatMap(({ id, quoteIds }) => quoteIds.map((quoteId) => ({ id, quoteId })));
  await insertRows(tx, 'settlement_quote', {
    agreement_id: ['uuid', quotes.map(() => agreementId)],
    settlement_id: ['uuid', quotes.map(({ id }) => id)],
    quote_id: ['uuid', quotes.map(({ quoteId }) => quoteId)],
  });
}

const SELECT = `
  SELECT t.id, t.load_id AS "loadId", t.version, t.agreement_version_id AS "agreementVersionId",
    t.load_version AS "loadVersion", t.result_id AS "resultId", t.status, t.currency, t.total::text,
    to_char(t.settled_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "settledAt", t.settled_by AS "settledBy",
    coalesce((
      SELECT json_agg(json_build_object('label', label, 'quantity', quantity::text, 'unit', unit, 'rate', rate::text,
        'amount', amount::text, 'how', how) ORDER BY place)
      FROM settlement_line n WHERE n.agreement_id = t.agreement_id AND n.settlement_id = t.id), '[]') AS lines,
    coalesce((
      SELECT json_agg(json_build_object('reference', reference, 'price', price::text, 'quote', quote::text) ORDER BY reference COLLATE "C")
      FROM settlement_price p WHERE p.agreement_id = t.agreement_id AND p.settlement_id = t.id), '[]') AS prices,
    coalesce((
      SELECT json_agg(quote_id ORDER BY quote_id)
      FROM settlement_quote q WHERE q.agreement_id = t.agreement_id AND q.settlement_id = t.id), '[]') AS "quoteIds"
  FROM settlement t`;

/** The settlements of some loads of an agreement, every version, oldest first. */
export async function readSettlements(
  tx: Transaction,
  agreementId: string,
  loadIds: readonly string[],
): Promise<readonly SettlementRow[]> {
  return await tx.$queryRawUnsafe<SettlementRow[]>(
    `${SELECT} WHERE t.agreement_id = $1::uuid AND t.load_id = ANY($2::uuid[]) ORDER BY t.load_id, t.version`,
    agreementId,
    loadIds,
  );
}
