/**
 * One lot as lists and comparisons show it, its figures as the reader writes them.
 */
import type { Figures } from '../../documents/figures.ts';
import type { LoadComposition } from '../../documents/strip/load-strip.ts';
import { lotStrip } from '../../documents/strip/lot-strip.ts';
import { FEEDS, type Feed, type Tested } from '../../domain/agreement/measures.ts';
import { zoneCalendar } from '../../domain/dates/instant.ts';
import { roughDistance } from '../../domain/lots/distance.ts';
import { type LotDocument, STORAGE_NAMES } from '../../domain/lots/lot-document.ts';
import { lotFigures } from '../../domain/lots/lot-figures.ts';
import { type LotStanding, lotStanding } from '../../domain/lots/lot-standing.ts';
import { decimal, type Exact, ZERO } from '../../domain/numbers/exact.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import { toPounds } from '../../domain/quantities/units.ts';
import type { Haul } from '../../domain/worth/trial-haul.ts';
import type { LotRow } from '../../store/rows/lot-rows.ts';
import type { DistanceRow, PlaceRow } from '../../store/rows/place-rows.ts';
import type { Context } from '../context.ts';
import { lotOf } from './find-lot.ts';
import type { WorthView } from './lot-worth.ts';

/** A figure of the feed, and whether a test gave it. */
export interface FigureView {
  /** "58" */
  readonly shown: string;
  readonly isTested: boolean;
  /** With a point, for pictures. */
  readonly plain: string;
}

export interface DistanceView {
  /** "34 miles" */
  readonly shown: string;
  /** By road as the reader wrote it down, or as the crow flies. */
  readonly kind: 'road' | 'crow';
}

export interface LotSummary {
  readonly id: string;
  readonly number: number;
  readonly seller: string;
  readonly isOwn: boolean;
  readonly standing: LotStanding;
  /** Local date and time, while it is under offer: "2026-12-02 14:10". */
  readonly heldUntil: string | undefined;
  readonly audience: 'everyone' | 'invited';
  /** Whether anybody may see some of it without signing in. */
  readonly isPublic: boolean;
  readonly feed: Feed;
  /** With the parts of the ear in it. */
  readonly feedWords: string;
  /** "1,500 short tons wet, 870 dry" */
  readonly amount: string;
  readonly ton: 'short ton' | 'tonne';
  readonly currency: string;
  readonly storage: string;
  readonly harvest: { readonly from: string; readonly to: string };
  /** "38 to 45 %" */
  readonly moisture: string;
  readonly region: string;
  readonly hauledBy: 'seller' | 'buyer';
  readonly weighedBy: string;
  readonly processing: string | undefined;
  readonly until: string;
  readonly tests: number;
  readonly dryMatter: FigureView;
  readonly starch: FigureView;
  readonly ndf: FigureView;
  readonly strip: LoadComposition;
  readonly distance: DistanceView | undefined;
  readonly worth: WorthView;
}

/** A lot with its document and what is worked out of it. */
export interface OpenedLot {
  readonly row: LotRow;
  readonly lot: LotDocument;
  readonly standing: LotStanding;
  readonly figures: ReturnType<typeof lotFigures>;
  readonly way: { readonly haul: Haul; readonly view: DistanceView } | undefined;
}

export interface Whereabouts {
  readonly place: PlaceRow | undefined;
  readonly distances: readonly DistanceRow[];
  readonly figures: Figures;
}

/** Reads a lot's row. The way is none for the seller, to whom it is at home. */
export function openLot(context: Context, row: LotRow, where: Whereabouts): OpenedLot {
  const lot = lotOf(row.document);
  const isOwn = row.sellerId === context.caller.partyId;
  return {
    row,
    lot,
    standing: lotStanding(row, context.now()),
    figures: lotFigures(lot),
    way: isOwn ? undefined : wayTo(row.id, lot, where),
  };
}

function wayTo(
  lotId: string,
  lot: LotDocument,
  { place, distances, figures }: Whereabouts,
): OpenedLot['way'] {
  const road = distances.find((distance) => distance.lotId === lotId);
  const unit = road?.unit ?? (lot.ton === 'tonne' ? 'km' : 'mile');
  const length = road?.length ?? (place && lot.place && roughDistance(place, lot.place, unit));
  if (length === undefined) return undefined;
  const name = unit === 'km' ? 'km' : length === '1' ? 'mile' : 'miles';
  return {
    haul: { length: decimal(length), unit },
    view: { shown: `${figures.show(length)} ${name}`, kind: road ? 'road' : 'crow' },
  };
}

/** Wet pounds of a lot, for the lengths of strips. */
export function wetPounds({ wetTons, ton }: LotDocument): Exact {
  return toPounds(decimal(wetTons), ton);
}

export interface SummarySetting {
  readonly isOwn: boolean;
  readonly worth: WorthView;
  /** Wet pounds of the largest lot beside it. */
  readonly largest: Exact;
  readonly figures: Figures;
}

const PLACES = 2;

export function lotSummary(
  { row, lot, standing, figures: feed, way }: OpenedLot,
  { isOwn, worth, largest, figures }: SummarySetting,
): LotSummary {
  const figure = (measure: Tested): FigureView => {
    const plain = printDecimal(feed.figures.get(measure) ?? ZERO, PLACES);
    return { plain, shown: figures.show(plain), isTested: !feed.assumed.includes(measure) };
  };
  const amount = amountWords(lot, figures);
  return {
    id: row.id,
    number: row.number,
    seller: row.sellerName,
    isOwn,
    standing,
    heldUntil:
      standing === 'under-offer' && row.heldUntil !== null
        ? zoneCalendar(lot.timeZone).wallClockAt(row.heldUntil)
        : undefined,
    audience: row.audience,
    isPublic: row.listing !== null,
    feed: lot.feed,
    feedWords: FEEDS[lot.feed],
    amount,
    ton: lot.ton === 'tonne' ? 'tonne' : 'short ton',
    currency: lot.currency,
    storage: STORAGE_NAMES[lot.storage],
    harvest: lot.harvest,
    moisture: `${figures.show(lot.moisture.from)} to ${figures.show(lot.moisture.to)} %`,
    region: lot.region,
    hauledBy: lot.hauledBy,
    weighedBy: lot.weighedBy,
    processing: lot.processing,
    until: lot.until,
    tests: lot.tests?.length ?? 0,
    dryMatter: figure('dry-matter'),
    starch: figure('starch'),
    ndf: figure('ndf'),
    strip: lotStrip({ tested: feed.tested, weight: amount, amount: wetPounds(lot), largest, figures }),
    distance: way?.view,
    worth,
  };
}

/** "1,500 short tons wet, 870 dry" */
export function amountWords(
  { wetTons, dryTons, ton }: Pick<LotDocument, 'wetTons' | 'ton'> & { readonly dryTons?: string | undefined },
  { show }: Figures,
): string {
  const name = ton === 'tonne' ? 'tonnes' : 'short tons';
  return `${show(wetTons)} ${name} wet${dryTons === undefined ? '' : `, ${show(dryTons)} dry`}`;
}
