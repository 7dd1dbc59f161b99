/**
 * What a lot costs the reader, printed: delivered, per ton as fed, of dry matter and of starch, with all that it rests on.
 */
import type { Figures } from '../../documents/figures.ts';
import type { LotDocument } from '../../domain/lots/lot-document.ts';
import { askingAgreement } from '../../domain/lots/lot-document.ts';
import { type LotWorth, quotesWanted, worthToBuyer } from '../../domain/lots/worth-to-buyer.ts';
import { currencyDecimals } from '../../domain/money/currency.ts';
import type { Exact } from '../../domain/numbers/exact.ts';
import { printDecimal, printFixed } from '../../domain/numbers/printing.ts';
import { USUAL_NET } from '../../domain/worth/example-loads.ts';
import type { Haul } from '../../domain/worth/trial-haul.ts';
import type { ReadersBasis } from './feed-request.ts';
import type { AskedQuote } from './lot-quotes.ts';

export interface WorthSetting {
  readonly basis: ReadersBasis;
  readonly quotes: readonly AskedQuote[];
  readonly distance: Haul | undefined;
  readonly figures: Figures;
}

/** A lot's price as the reader writes numbers. */
export type WorthView =
  | {
      readonly status: 'priced';
      readonly currency: string;
      /** By the asking formula alone, a ton as fed. */
      readonly asking: string;
      /** With haulage, as far as it is known. */
      readonly asFed: string;
      readonly dry: string;
      readonly starch: string | undefined;
      /** A ton; undefined where the seller hauls or it is not known. */
      readonly haul: string | undefined;
      readonly haulLacks: readonly ('rate' | 'distance')[];
      /** "corn-elevator-bid 4.40" */
      readonly at: readonly string[];
      /** The load that it is reckoned on: "48,000 lb". */
      readonly load: string;
      /** For pictures: decimal strings with a point. */
      readonly plain: { readonly dry: string };
    }
  | { readonly status: 'lacking'; readonly quotes: readonly string[]; readonly distance: boolean }
  | { readonly status: 'impossible'; readonly why: string };

/** The exact worth, to put lots in order, and the printed one. */
export function lotWorth(
  lot: LotDocument,
  { basis, quotes, distance, figures }: WorthSetting,
): { readonly worth: LotWorth; readonly view: WorthView } {
  const usual = lot.ton === 'tonne' ? 'kg' : 'lb';
  const load = basis.load ?? { net: USUAL_NET[usual], unit: usual };
  const known = new Map(
    quotes.flatMap(({ key, quote }): [string, string][] => (quote === undefined ? [] : [[key, quote]])),
  );
  // A rate in other money says nothing of this lot's.
  const haul = basis.haul?.currency === lot.currency ? basis.haul : undefined;
  const worth = worthToBuyer(lot, { quotes: known, load, haul, distance });
  if (worth.kind === 'impossible') return { worth, view: { status: 'impossible', why: worth.why } };
  if (worth.kind === 'lacking') {
    const view = {
      status: 'lacking',
      quotes: worth.quotes.map(({ key }) => key),
      distance: worth.distance,
    } as const;
    return { worth, view };
  }
  const money = (amount: Exact) => figures.show(printFixed(amount, currencyDecimals(lot.currency) ?? 2));
  return {
    worth,
    view: {
      status: 'priced',
      currency: lot.currency,
      asking: money(worth.asking),
      asFed: money(worth.asFed),
      dry: money(worth.dry),
      starch: worth.starch && money(worth.starch),
      haul: worth.haul.kind === 'counted' ? money(worth.haul.perTon) : undefined,
      haulLacks: worth.haul.kind === 'unknown' ? worth.haul.lacks : [],
      at: quotesWanted(askingAgreement(lot)).map(
        ({ key, series }) => `${series} ${figures.show(known.get(key) ?? '')}`,
      ),
      load: `${figures.show(printDecimal(load.net))} ${load.unit}`,
      plain: { dry: printDecimal(worth.dry, 4) },
    },
  };
}
