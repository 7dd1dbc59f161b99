/**
 * Records quotes of the public price series that an agreement follows.
 */
import { plainDecimal } from '../../domain/numbers/printing.ts';
import { suspectJumps, tellJump } from '../../domain/prices/price-series.ts';
import { readQuoteRow } from '../../domain/tables/other-rows.ts';
import { PRICES } from '../../domain/tables/table-shape.ts';
import type { Entering } from '../../journal/chain.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import {
  insertQuotes,
  insertSeries,
  type QuoteRow,
  readQuotes,
  readSeriesIds,
} from '../../store/rows/quote-rows.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { groupRows } from '../group-rows.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { type InputRow, readInputRows } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { refuseUnusual } from '../refuse-unusual.ts';
import { priceSeries } from '../settlements/gather-evidence.ts';
import { quoteFact } from './quote-fact.ts';
import { refuseOthersSeries } from './series-terms.ts';

export interface QuotesToRecord {
  readonly agreementId: string;
  /** With the columns of `prices.csv`. */
  readonly quotes: readonly InputRow[];
  readonly key?: string;
  /** Unusual prices were looked at, and are right. */
  readonly confirmed?: boolean;
}

/**
 * Returns how many quotes are new; one that is there already, the same, is not written again.
 * Refuses `not-allowed`, `bad-input`, `not-found`, `quote-taken` where a date has another price already, `not-yours`
 * where the other side alone enters quotes of a series, and `unusual` where a price is far from its neighbours and was not confirmed.
 */
export async function recordQuotes(
  context: Context,
  { agreementId, quotes, key, confirmed }: QuotesToRecord,
): Promise<{ readonly recorded: number }> {
  permit(context, 'record-quote');
  const asked = { verb: 'record-quote', subject: agreementId, key, input: quotes };
  return await doOnce(context, asked, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    const read = readInputRows(quotes, { shape: PRICES, read: readQuoteRow, key: ['series', 'date'] });
    await lockAgreement(tx, agreementId);
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: context.caller.personId };
    const seriesIds = await seriesNamed(
      tx,
      read.map(({ found }) => found.series),
      { agreementId, newId: context.newId },
    );
    const before = new Map((await readQuotes(tx, agreementId)).map((quote) => [keyOf(quote), quote]));
    const rows = read.map(
      ({ found, text }): QuoteRow => ({
        id: context.newId(),
        seriesId: seriesIds.get(found.series) ?? '',
        series: found.series,
        date: found.date,
        price: plainDecimal(text('price')),
        version: 1,
        reason: null,
      }),
    );
    for (const row of rows) refuseOtherPrice(row, before.get(keyOf(row)));
    const fresh = rows.filter((row) => !before.has(keyOf(row)));
    const { caller } = context;
    await refuseOthersSeries(tx, { found, caller, series: fresh.map(({ series }) => series) });
    refuseUnusual(tellJumps([...before.values()], fresh), confirmed);
    await insertQuotes(tx, fresh, recorded);
    const facts = fresh.map(
      (row): Entering => ({ kind: 'quote', fact: quoteFact(row), subjectId: row.id, postings: [] }),
    );
    await enterFacts(tx, facts, recorded);
    return { recorded: fresh.length };
  });
}

/** The jumps that new quotes make beside those that are there, in words. */
function tellJumps(known: readonly QuoteRow[], fresh: readonly QuoteRow[]): string[] {
  const isFresh = new Set(fresh.map(keyOf));
  const series = groupRows([...known, ...fresh], ({ series: name }) => name);
  return [...series].flatMap(([name, rows]) =>
    suspectJumps(priceSeries(rows)).flatMap((jump) => {
      const concerns = [jump.before, jump.after].some(({ date }) =>
        isFresh.has(keyOf({ series: name, date })),
      );
      return concerns ? [tellJump(name, jump)] : [];
    }),
  );
}

function keyOf({ series, date }: Pick<QuoteRow, 'series' | 'date'>): string {
  return JSON.stringify([series, date]);
}

/** Ids of the series of these names; those that are new are written. */
export async function seriesNamed(
  tx: Transaction,
  names: readonly string[],
  { agreementId, newId }: { readonly agreementId: string; readonly newId: () => string },
): Promise<ReadonlyMap<string, string>> {
  const known = new Map(await readSeriesIds(tx, agreementId));
  const fresh = [...new Set(names)].filter((name) => !known.has(name)).map((name) => ({ name, id: newId() }));
  await insertSeries(tx, agreementId, fresh);
  for (const { name, id } of fresh) known.set(name, id);
  return known;
}

function refuseOtherPrice(row: QuoteRow, before: QuoteRow | undefined): void {
  if (!before || before.price === row.price) return;
  throw new Refusal(
    'quote-taken',
    `The quote of ${row.series} on ${row.date} was recorded before, as ${before.price}. A recorded quote is never changed.`,
  );
}
