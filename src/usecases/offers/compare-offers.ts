/**
 * Several buyers' offers on one lot beside one another: what each pays for the same five example loads at the same
 * quotes. The seller's alone.
 */
import { figuresFor } from '../../documents/figures.ts';
import type { Agreement } from '../../domain/agreement/document.ts';
import type { LotDocument } from '../../domain/lots/lot-document.ts';
import { trialFigures } from '../../domain/lots/lot-test.ts';
import { quotesWanted } from '../../domain/lots/worth-to-buyer.ts';
import { currencyDecimals } from '../../domain/money/currency.ts';
import type { Exact } from '../../domain/numbers/exact.ts';
import { printDecimal, printFixed } from '../../domain/numbers/printing.ts';
import { assumedQuotes } from '../../domain/worth/assumed-quotes.ts';
import { exampleLoads } from '../../domain/worth/example-loads.ts';
import { haulFor } from '../../domain/worth/trial-haul.ts';
import { prepareTryOut } from '../../domain/worth/try-out.ts';
import type { Transaction } from '../../store/open-store.ts';
import { gatherQuotes } from '../lots/lot-quotes.ts';

/** A quote that the offers are looked at with. */
export interface ComparedQuote {
  /** "corn-elevator-bid, USD per bushel" */
  readonly key: string;
  readonly quote: string;
  readonly from: 'typed' | 'recorded' | 'assumed';
  /** `YYYY-MM-DD` of a recorded one. */
  readonly on: string | undefined;
}

/** What an offer pays for a load, with its currency, and per ton of dry matter; or why there is no price. */
export type ComparedPrice =
  | { readonly total: string; readonly perTonDry: string; readonly impossible?: never }
  | { readonly impossible: string };

export interface ComparedOffers {
  readonly quotes: readonly ComparedQuote[];
  /** Each load by its label, and its weight: "48,000 lb". */
  readonly loads: readonly { readonly label: string; readonly weight: string }[];
  /** "short ton" or "tonne". */
  readonly ton: string;
  /** By the offer's id, in the order of the loads. */
  readonly prices: ReadonlyMap<string, readonly ComparedPrice[]>;
}

export interface OffersToCompare {
  readonly lot: LotDocument;
  readonly offers: readonly { readonly id: string; readonly agreement: Agreement }[];
  /** Quotes by their key, as somebody typed them. */
  readonly typed: ReadonlyMap<string, string>;
  readonly locale: string;
}

/** All offers at one set of quotes: typed, else recorded, else assumed and said to be. */
export async function compareOffers(
  tx: Transaction,
  { lot, offers, typed, locale }: OffersToCompare,
): Promise<ComparedOffers> {
  const quotes = await quotesFor(tx, offers, typed);
  const known = new Map(quotes.map(({ key, quote }) => [key, quote]));
  const unit = lot.ton === 'tonne' ? 'kg' : 'lb';
  const loads = exampleLoads({ feed: lot.feed, tests: (lot.tests ?? []).map(trialFigures), unit });
  const figures = figuresFor(locale);
  const prices = offers.map(({ id, agreement }) => {
    const decimals = currencyDecimals(agreement.currency) ?? 2;
    const shown = (amount: Exact) => figures.show(printFixed(amount, decimals));
    const wanted = quotesWanted(agreement);
    const own = new Map(
      wanted.flatMap(({ reference, key }): [string, string][] => {
        const quote = known.get(key);
        return quote === undefined ? [] : [[reference, quote]];
      }),
    );
    const paid = loads.map(({ net, figures: tested }): ComparedPrice => {
      const load = { net, unit, distance: haulFor(agreement) } as const;
      const price = prepareTryOut(agreement, { quotes: own, load, ton: lot.ton })(tested);
      if (price.impossible !== undefined) return { impossible: price.impossible };
      return {
        total: `${shown(price.total)} ${agreement.currency}`,
        perTonDry: shown(price.perTonDry),
      };
    });
    return [id, paid] as const;
  });
  return {
    quotes,
    loads: loads.map(({ label, net }) => ({ label, weight: `${figures.show(printDecimal(net))} ${unit}` })),
    ton: lot.ton === 'tonne' ? 'tonne' : 'short ton',
    prices: new Map(prices),
  };
}

async function quotesFor(
  tx: Transaction,
  offers: OffersToCompare['offers'],
  typed: ReadonlyMap<string, string>,
): Promise<readonly ComparedQuote[]> {
  const gathered = await gatherQuotes(
    tx,
    offers.flatMap(({ agreement }) => quotesWanted(agreement)),
    typed,
  );
  const assumed = new Map(offers.flatMap(({ agreement }) => [...assumedFor(agreement)]));
  return gathered.flatMap(({ key, quote, from, on }): ComparedQuote[] => {
    if (quote !== undefined && from !== undefined) return [{ key, quote, from, on }];
    const stand = assumed.get(key);
    return stand === undefined ? [] : [{ key, quote: stand, from: 'assumed', on: undefined }];
  });
}

function assumedFor(agreement: Agreement): readonly (readonly [string, string])[] {
  const assumed = assumedQuotes(agreement);
  return quotesWanted(agreement).map(({ reference, key }) => [key, assumed.get(reference) ?? '0'] as const);
}
