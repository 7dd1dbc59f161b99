/**
 * The quotes at which lots are looked at: what the reader typed; else the last one that is recorded for a series of that
 * name, in that money and unit, under an agreement of the reader's own. Nothing else: a missing one is asked for.
 */
import type { QuoteWanted } from '../../domain/lots/worth-to-buyer.ts';
import { quotesWanted } from '../../domain/lots/worth-to-buyer.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readAgreements } from '../../store/rows/agreement-rows.ts';
import { readLatestQuotes } from '../../store/rows/quote-rows.ts';
import { agreementOf } from '../agreements/find-agreement.ts';

export interface AskedQuote {
  /** "corn-elevator-bid, USD per bushel" */
  readonly key: string;
  readonly series: string;
  /** A decimal string; undefined where nobody gave one. */
  readonly quote: string | undefined;
  readonly from: 'typed' | 'recorded' | undefined;
  /** `YYYY-MM-DD` of a recorded one. */
  readonly on: string | undefined;
}

/** Every quote that is wanted, once, in alphabetical order. */
export async function gatherQuotes(
  tx: Transaction,
  wanted: readonly QuoteWanted[],
  typed: ReadonlyMap<string, string>,
): Promise<readonly AskedQuote[]> {
  const keys = new Map(wanted.map(({ key, series }) => [key, series]));
  const open = [...keys].filter(([key]) => !typed.has(key));
  const recorded = await recordedQuotes(
    tx,
    open.map(([, series]) => series),
  );
  return [...keys]
    .map(([key, series]): AskedQuote => {
      const given = typed.get(key);
      if (given !== undefined) return { key, series, quote: given, from: 'typed', on: undefined };
      const last = recorded.get(key);
      return { key, series, quote: last?.price, from: last && 'recorded', on: last?.date };
    })
    .sort((a, b) => (a.key < b.key ? -1 : 1));
}

/** The newest recorded quote by the key under which lots ask for it. */
async function recordedQuotes(
  tx: Transaction,
  series: readonly string[],
): Promise<ReadonlyMap<string, { readonly price: string; readonly date: string }>> {
  const found = new Map<string, { readonly price: string; readonly date: string }>();
  if (series.length === 0) return found;
  const latest = await readLatestQuotes(tx, series);
  if (latest.length === 0) return found;
  const agreements = new Map((await readAgreements(tx)).map((row) => [row.id, row]));
  for (const { agreementId, series: name, price, date } of latest) {
    const row = agreements.get(agreementId);
    if (!row) continue;
    for (const { key, series: followed } of quotesWanted(agreementOf(row.document))) {
      const before = found.get(key);
      if (followed === name && (!before || before.date < date)) found.set(key, { price, date });
    }
  }
  return found;
}
