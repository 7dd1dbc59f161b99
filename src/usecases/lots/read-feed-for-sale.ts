/**
 * The lots that a party may see: its own with what waits for it, the others as it asked for them, priced on its own basis.
 */
import { figuresFor } from '../../documents/figures.ts';
import { askingAgreement } from '../../domain/lots/lot-document.ts';
import { isOpen } from '../../domain/lots/lot-standing.ts';
import { type LotWorth, quotesWanted } from '../../domain/lots/worth-to-buyer.ts';
import { type Exact, larger, ONE } from '../../domain/numbers/exact.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readLots } from '../../store/rows/lot-rows.ts';
import { readDistances, readPlace } from '../../store/rows/place-rows.ts';
import { type Context, permit } from '../context.ts';
import { chooseLots, type PricedLotOf } from './choose-lots.ts';
import type { FeedRequest, ReadersBasis } from './feed-request.ts';
import { type AskedQuote, gatherQuotes } from './lot-quotes.ts';
import { type LotSummary, lotSummary, type OpenedLot, openLot, wetPounds } from './lot-summary.ts';
import { lotWorth, type WorthView } from './lot-worth.ts';
import { type LotWaiting, lotsWaiting } from './lots-waiting.ts';

export interface FeedForSale {
  readonly waiting: readonly LotWaiting[];
  /** The party's own lots, whatever their state, the newest first. */
  readonly own: readonly LotSummary[];
  readonly others: readonly LotSummary[];
  /** How many others there are that were not asked for. */
  readonly leftOut: number;
  /** Quotes that the asking formulas follow, with what they were taken as. */
  readonly quotes: readonly AskedQuote[];
  /** Whether the party has said where it is. */
  readonly hasPlace: boolean;
}

/** Refuses `not-allowed`. */
export async function readFeedForSale(
  context: Context,
  { request, locale }: { readonly request: FeedRequest; readonly locale: string },
): Promise<FeedForSale> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const { lots, place, quotes, summarize } = await openLots(tx, context, { basis: request, locale });
    const own = lots.filter(({ row }) => row.sellerId === context.caller.partyId);
    const others = lots.filter((lot) => !own.includes(lot));
    const chosen = chooseLots(others, request);
    const summaries = summarize([...own, ...chosen]);
    return {
      waiting: await lotsWaiting(tx, context, lots),
      own: summaries.filter(({ isOwn }) => isOwn),
      others: summaries.filter(({ isOwn }) => !isOwn),
      leftOut: others.length - chosen.length,
      quotes,
      hasPlace: place !== undefined,
    };
  });
}

/** Most lots that stand side by side. */
export const MOST_BESIDE = 5;

/** Lots to look at side by side; those that are not there are left out. Refuses `not-allowed`. */
export async function compareLots(
  context: Context,
  {
    lotIds,
    basis,
    locale,
  }: { readonly lotIds: readonly string[]; readonly basis: ReadersBasis; readonly locale: string },
): Promise<Pick<FeedForSale, 'quotes'> & { readonly lots: readonly LotSummary[] }> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const wanted = lotIds.slice(0, MOST_BESIDE);
    const { lots, quotes, summarize } = await openLots(tx, context, { basis, locale, only: wanted });
    const chosen = wanted.flatMap((id) => lots.find(({ row }) => row.id === id) ?? []);
    return { quotes, lots: summarize(chosen) };
  });
}

export interface LotsAsked {
  readonly basis: ReadersBasis;
  readonly locale: string;
  readonly only?: readonly string[];
}

export interface OpenedLots {
  readonly lots: readonly (OpenedLot & PricedLotOf & { readonly view: WorthView })[];
  readonly quotes: readonly AskedQuote[];
  readonly place: Awaited<ReturnType<typeof readPlace>>;
  readonly summarize: (of: OpenedLots['lots']) => readonly LotSummary[];
}

/** Every lot that the transaction may see (or those asked for), with its price on the reader's basis. */
export async function openLots(
  tx: Transaction,
  context: Context,
  { basis, locale, only }: LotsAsked,
): Promise<OpenedLots> {
  const figures = figuresFor(locale);
  const place = await readPlace(tx);
  const where = { place, distances: await readDistances(tx), figures };
  const rows = (await readLots(tx)).filter(({ id }) => only === undefined || only.includes(id));
  const opened = rows.map((row) => openLot(context, row, where));
  const isOwn = ({ row }: OpenedLot) => row.sellerId === context.caller.partyId;
  // What the party's own drafts and sold lots follow need not be asked for.
  const wanted = opened.filter((lot) => only !== undefined || isOpen(lot.standing) || isOwn(lot));
  const quotes = await gatherQuotes(
    tx,
    wanted.flatMap(({ lot }) => quotesWanted(askingAgreement(lot))),
    basis.quotes,
  );
  const lots = opened.map((lot) => {
    const priced: { readonly worth: LotWorth; readonly view: WorthView } = lotWorth(lot.lot, {
      basis,
      quotes,
      distance: lot.way?.haul,
      figures,
    });
    return { ...lot, ...priced };
  });
  return {
    lots,
    quotes,
    place,
    summarize: (of) => {
      const largest = of.reduce<Exact>((most, { lot }) => larger(most, wetPounds(lot)), ONE);
      return of.map((lot) => lotSummary(lot, { isOwn: isOwn(lot), worth: lot.view, largest, figures }));
    },
  };
}
