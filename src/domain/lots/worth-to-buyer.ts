/**
 * What a lot would cost a buyer where it is fed: the asking formula on the lot's figures, at the quotes that the buyer
 * gives, plus the buyer's own haulage. Nothing is assumed here: what is missing is named.
 */
import type { Agreement } from '../agreement/document.ts';
import { add, decimal, divide, type Exact, isZero, multiply, percent, ZERO } from '../numbers/exact.ts';
import {
  convertDistance,
  type DistanceUnit,
  fromPounds,
  type ScaleUnit,
  toPounds,
} from '../quantities/units.ts';
import type { Haul } from '../worth/trial-haul.ts';
import { haulUnit } from '../worth/trial-haul.ts';
import { prepareTryOut } from '../worth/try-out.ts';
import { askingAgreement, type LotDocument } from './lot-document.ts';
import { lotFigures } from './lot-figures.ts';

export interface BuyersBasis {
  /** Quotes by what they are asked for as (`QuoteWanted.key`), each a decimal string. */
  readonly quotes: ReadonlyMap<string, string>;
  /** An ordinary load, which the haul and the formula are reckoned on. */
  readonly load: { readonly net: Exact; readonly unit: ScaleUnit };
  /** What a loaded mile or kilometre costs the buyer, in the lot's currency. */
  readonly haul: { readonly rate: Exact; readonly per: DistanceUnit } | undefined;
  readonly distance: Haul | undefined;
}

/** A quote that an asking formula follows. */
export interface QuoteWanted {
  /** The formula's own name for it. */
  readonly reference: string;
  /** The same for every lot that follows the series: "corn-elevator-bid, USD per bushel". */
  readonly key: string;
  readonly series: string;
  /** The series' own unit. */
  readonly unit: string;
}

/** Quotes that a formula cannot be priced without; none where all its prices are fixed. */
export function quotesWanted({
  references,
  currency,
}: Pick<Agreement, 'references' | 'currency'>): readonly QuoteWanted[] {
  return Object.entries(references).flatMap(([reference, { rule, series = reference, unit }]) =>
    rule.kind === 'fixed' ? [] : [{ reference, series, unit, key: `${series}, ${currency} per ${unit}` }],
  );
}

/** The buyer's haulage in a price: `none` where the seller hauls. */
export type HaulCost =
  | { readonly kind: 'none' }
  | { readonly kind: 'counted'; readonly perTon: Exact }
  /** The buyer hauls, and what it costs is not known. */
  | { readonly kind: 'unknown'; readonly lacks: readonly ('rate' | 'distance')[] };

export interface PricedLot {
  readonly kind: 'priced';
  /** By the asking formula alone, as fed. */
  readonly asking: Exact;
  readonly haul: HaulCost;
  /** Asking and known haulage, for a ton as fed, of dry matter and of starch; the last undefined without starch. */
  readonly asFed: Exact;
  readonly dry: Exact;
  readonly starch: Exact | undefined;
}

/** Prices are per ton of the lot's own kind. */
export type LotWorth =
  | PricedLot
  | { readonly kind: 'lacking'; readonly quotes: readonly QuoteWanted[]; readonly distance: boolean }
  | { readonly kind: 'impossible'; readonly why: string };

/**
 * A load of 48,000 lb is 24 short tons: at 50.00 a ton it is 1,200.00; 20 miles at 4.25 are 85.00, 3.541666… a ton. With
 * 58 % dry matter that holds 56 % starch, delivered it is 53.54 a ton as fed, 92.31 of dry matter, 164.85 of starch.
 */
export function worthToBuyer(lot: LotDocument, basis: BuyersBasis): LotWorth {
  const agreement = askingAgreement(lot);
  const wanted = quotesWanted(agreement);
  const quotes = wanted.filter(({ key }) => !basis.quotes.has(key));
  const lacksDistance = haulUnit(agreement) !== undefined && basis.distance === undefined;
  if (quotes.length > 0 || lacksDistance) return { kind: 'lacking', quotes, distance: lacksDistance };
  const { figures } = lotFigures(lot);
  const tried = prepareTryOut(agreement, {
    quotes: new Map(
      wanted.flatMap(({ reference, key }) => [[reference, basis.quotes.get(key) ?? '0'] as const]),
    ),
    load: { ...basis.load, distance: basis.distance },
    ton: lot.ton,
  })(figures);
  if (tried.impossible !== undefined) return { kind: 'impossible', why: tried.impossible };
  const haul = haulCost(lot, basis);
  const asFed = haul.kind === 'counted' ? add(tried.perTonAsFed, haul.perTon) : tried.perTonAsFed;
  const dryPart = percent(figures.get('dry-matter') ?? ZERO);
  const starchPart = multiply(dryPart, percent(figures.get('starch') ?? ZERO));
  return {
    kind: 'priced',
    asking: tried.perTonAsFed,
    haul,
    asFed,
    dry: divide(asFed, dryPart),
    starch: isZero(starchPart) ? undefined : divide(asFed, starchPart),
  };
}

function haulCost(lot: LotDocument, { load, haul, distance }: BuyersBasis): HaulCost {
  if (lot.hauledBy === 'seller') return { kind: 'none' };
  const lacks = [...(haul ? [] : ['rate' as const]), ...(distance ? [] : ['distance' as const])];
  if (!haul || !distance) return { kind: 'unknown', lacks };
  const cost = multiply(haul.rate, convertDistance(distance.length, distance.unit, haul.per));
  return { kind: 'counted', perTon: divide(cost, fromPounds(toPounds(load.net, load.unit), lot.ton)) };
}

/** A price per ton of a lot's kind as one per pound, to put lots of different tons in order. */
export function perPound(price: Exact, { ton }: Pick<LotDocument, 'ton'>): Exact {
  return divide(price, toPounds(decimal('1'), ton));
}
