/**
 * One price series of an agreement, whole: what was settled about it, every quote with its versions, the settlements
 * that rest on each, days without a quote, and the points of its chart.
 */
import { figuresFor } from '../../documents/figures.ts';
import { zoneCalendar } from '../../domain/dates/instant.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { missingWeekdays } from '../../domain/prices/missing-days.ts';
import { contestedUntil, type Enterer, mayEnter } from '../../domain/prices/series-terms.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type CorrectionRow, readCorrections } from '../../store/rows/correction-rows.ts';
import { readLoads } from '../../store/rows/load-rows.ts';
import { readQuoteVersions } from '../../store/rows/quote-rows.ts';
import { readQuoteTimes, readSettledBySeries } from '../../store/rows/series-rows.ts';
import { type FoundAgreement, findAgreement, sideOf } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { groupRows } from '../group-rows.ts';
import { outcomesOf } from '../loads/load-views.ts';
import { Refusal } from '../refusal.ts';
import { seriesOf } from './followed-series.ts';
import { standingTerms, termsBySeries } from './series-terms.ts';

/** A price as it was entered, and put right. */
export interface QuoteVersionView {
  readonly version: number;
  /** As the reader writes numbers. */
  readonly price: string;
  readonly reason: string | null;
  /** On the agreement's clock. */
  readonly enteredAt: string;
}

export interface SeriesQuoteView {
  /** Of the version that stands. */
  readonly id: string;
  readonly date: string;
  readonly price: string;
  /** As it was written: "4.20". */
  readonly plainPrice: string;
  /** Oldest first. */
  readonly versions: readonly QuoteVersionView[];
  /** Settlements, as they stand, that rest on it. */
  readonly usedBy: readonly { readonly loadId: string; readonly ticket: string }[];
  /** What is proposed in its place and was not answered yet. */
  readonly proposed:
    | {
        readonly price: string;
        readonly reason: string;
        readonly isYours: boolean;
        readonly correctionId: string;
      }
    | undefined;
  /** The day until which the reader's side may contest it; undefined where it may not. */
  readonly contestUntil: string | undefined;
}

export interface SeriesView {
  readonly agreementId: string;
  readonly number: string;
  readonly series: string;
  readonly seller: string;
  readonly buyer: string;
  readonly side: 'seller' | 'buyer' | 'adviser';
  /** The season is sealed, so that no quote is entered or put right any more. */
  readonly isSealed: boolean;
  readonly currency: string;
  /** What a price is for, such as "bushel", as the agreement's references say; several where they differ. */
  readonly units: readonly string[];
  readonly source: string;
  readonly enteredBy: Enterer;
  readonly contestDays: number;
  readonly mayEnter: boolean;
  /** Newest first. */
  readonly quotes: readonly SeriesQuoteView[];
  /** Weekdays without a quote between the first and the last, oldest first. */
  readonly missing: readonly string[];
  /** Oldest first, for a chart. */
  readonly points: readonly { readonly date: string; readonly price: string }[];
}

export interface SeriesToRead {
  readonly agreementId: string;
  readonly series: string;
  /** How the reader writes numbers, such as "en-US". */
  readonly locale: string;
}

/** Refuses `not-allowed`, and `not-found` for an agreement of others or a series that it neither follows nor has. */
export async function readSeries(
  context: Context,
  { agreementId, series, locale }: SeriesToRead,
): Promise<SeriesView> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findAgreement(tx, agreementId);
    const all = (await readQuoteVersions(tx, agreementId)).filter((quote) => quote.series === series);
    if (all.length === 0 && !seriesOf(found).includes(series)) {
      throw new Refusal('not-found', 'The agreement has no price of that name.');
    }
    const terms = standingTerms((await termsBySeries(tx, agreementId)).get(series));
    const side = sideOf(found.row, context.caller);
    const isEnterer = side !== 'adviser' && mayEnter(terms, side);
    const days = groupRows(all, ({ date }) => date);
    const seriesId = all[0]?.seriesId;
    const grounds = await readGrounds(tx, { found, series, seriesId });
    const calendar = zoneCalendar(found.agreement.timeZone);
    const { show } = figuresFor(locale);
    const quotes = [...days].flatMap(([date, versions]): SeriesQuoteView[] => {
      const newest = versions.at(-1);
      if (!newest) return [];
      const until = contestedUntil(terms, grounds.times.get(newest.id) ?? 0);
      const mayContest = side !== 'adviser' && !isEnterer && context.now() <= until;
      const ids = new Set(versions.map(({ id }) => id));
      const proposed = grounds.corrections.find(({ subjectId }) => ids.has(subjectId));
      return [
        {
          id: newest.id,
          date,
          price: show(newest.price),
          plainPrice: newest.price,
          versions: versions.map(({ id, version, price, reason }) => ({
            version,
            price: show(price),
            reason,
            enteredAt: calendar.wallClockAt(grounds.times.get(id) ?? 0),
          })),
          usedBy: grounds.uses.get(date) ?? [],
          proposed: proposed && proposal(proposed, context, show),
          contestUntil: mayContest && !proposed ? calendar.dateAt(until) : undefined,
        },
      ];
    });
    return {
      ...headOf(found, series),
      side,
      ...terms,
      mayEnter: isEnterer,
      quotes: quotes.toReversed(),
      missing: missingWeekdays(quotes.map(({ date }) => date as LocalDate)),
      points: quotes.map(({ date, plainPrice }) => ({ date, price: plainPrice })),
    };
  });
}

type QuoteUse = SeriesQuoteView['usedBy'][number];

interface SeriesGrounds {
  readonly times: ReadonlyMap<string, number>;
  /** By the quote's date. */
  readonly uses: ReadonlyMap<string, readonly QuoteUse[]>;
  /** Open proposals about quotes. */
  readonly corrections: readonly CorrectionRow[];
}

interface GroundsOf {
  readonly found: FoundAgreement;
  readonly series: string;
  readonly seriesId: string | undefined;
}

async function readGrounds(tx: Transaction, { found, series, seriesId }: GroundsOf): Promise<SeriesGrounds> {
  if (seriesId === undefined) return { times: new Map(), uses: new Map(), corrections: [] };
  const agreementId = found.row.id;
  const corrections = await readCorrections(tx, agreementId);
  return {
    times: await readQuoteTimes(tx, agreementId, seriesId),
    uses: await usesOf(tx, { found, series, seriesId }),
    corrections: corrections.filter(({ subject, answer }) => subject === 'quote' && answer === null),
  };
}

/**
 * Which settled loads each quote priced, worked out from the settlements themselves. A settlement rests on the quote
 * that closed its date, too; that one priced nothing.
 */
async function usesOf(
  tx: Transaction,
  { found, series, seriesId }: GroundsOf & { readonly seriesId: string },
): Promise<ReadonlyMap<string, readonly QuoteUse[]>> {
  const agreementId = found.row.id;
  const loads = await readLoads(tx, agreementId, await readSettledBySeries(tx, agreementId, seriesId));
  const uses = new Map<string, QuoteUse[]>();
  for (const { row, terms, outcome } of await outcomesOf(tx, found, loads)) {
    if (outcome.status !== 'settled') continue;
    for (const [reference, { quotedOn }] of outcome.prices) {
      if (terms.agreement.references[reference]?.series !== series) continue;
      for (const date of quotedOn) {
        uses.set(date, [...(uses.get(date) ?? []), { loadId: row.id, ticket: row.ticket }]);
      }
    }
  }
  return uses;
}

function headOf({ row, agreement }: FoundAgreement, series: string) {
  const references = Object.values(agreement.references).filter((reference) => reference.series === series);
  return {
    agreementId: row.id,
    number: row.number,
    series,
    seller: row.sellerName,
    buyer: row.buyerName,
    isSealed: row.isSealed,
    currency: agreement.currency,
    units: [...new Set(references.map(({ unit }) => unit))],
  };
}

function proposal(
  { id, document, reason, byPartyId }: CorrectionRow,
  { caller }: Context,
  show: (price: string) => string,
): SeriesQuoteView['proposed'] {
  const { price } = JSON.parse(document) as { readonly price?: string };
  return { price: show(price ?? ''), reason, isYours: byPartyId === caller.partyId, correctionId: id };
}
