/**
 * Which lots were asked for, and in which order. Feed that was not tested is no answer to who asks for a tested figure,
 * but for dry matter, which the seller expects; what is not known comes last.
 */
import { FEED_KINDS } from '../../domain/agreement/measures.ts';
import { isOpen } from '../../domain/lots/lot-standing.ts';
import { type LotWorth, perPound } from '../../domain/lots/worth-to-buyer.ts';
import { compare, type Exact, negate, ZERO } from '../../domain/numbers/exact.ts';
import { convertDistance } from '../../domain/quantities/units.ts';
import type { FeedRequest, Sort } from './feed-request.ts';
import type { OpenedLot } from './lot-summary.ts';

export interface PricedLotOf {
  readonly worth: LotWorth;
}

type Candidate = OpenedLot & PricedLotOf;

/** Of the newest first. */
export function chooseLots<Lot extends Candidate>(
  lots: readonly Lot[],
  request: FeedRequest,
): readonly Lot[] {
  const chosen = lots.filter((lot) => isAsked(lot, request));
  const measured = chosen.map((lot) => ({ lot, rank: rankOf(lot, request.sort) }));
  return measured.toSorted((a, b) => compareRanks(a.rank, b.rank)).map(({ lot }) => lot);
}

function isAsked({ lot, standing, figures, way }: Candidate, request: FeedRequest): boolean {
  const { feed, within, dryMatterFrom, dryMatterTo, starchFrom, ndfTo, onlyOpen } = request;
  const dry = figures.figures.get('dry-matter') ?? ZERO;
  const starch = figures.tested.get('starch');
  const ndf = figures.tested.get('ndf');
  return (
    (!onlyOpen || isOpen(standing)) &&
    (feed === undefined || lot.feed === feed) &&
    (!within ||
      (way !== undefined &&
        compare(convertDistance(way.haul.length, way.haul.unit, within.unit), within.length) <= 0)) &&
    (!dryMatterFrom || compare(dry, dryMatterFrom) >= 0) &&
    (!dryMatterTo || compare(dry, dryMatterTo) <= 0) &&
    (!starchFrom || (starch !== undefined && compare(starch, starchFrom) >= 0)) &&
    (!ndfTo || (ndf !== undefined && compare(ndf, ndfTo) <= 0))
  );
}

/** A place in the order: by group first, then from the least figure on; what has none comes last. */
interface Rank {
  readonly group: string;
  readonly figure: Exact | undefined;
}

function rankOf({ lot, figures, way, worth }: Candidate, sort: Sort): Rank {
  const tested = (measure: 'starch' | 'ndf') => figures.tested.get(measure);
  const most = (figure: Exact | undefined) => ({ group: '', figure: figure && negate(figure) });
  switch (sort) {
    case 'newest':
      return { group: '', figure: ZERO };
    case 'kind':
      return { group: String(FEED_KINDS.indexOf(lot.feed)), figure: ZERO };
    case 'distance':
      return { group: '', figure: way && convertDistance(way.haul.length, way.haul.unit, 'km') };
    case 'dry-matter':
      return most(figures.figures.get('dry-matter'));
    case 'starch':
      return most(tested('starch'));
    case 'ndf':
      return { group: '', figure: tested('ndf') };
    case 'price-dry':
    case 'price-starch': {
      if (worth.kind !== 'priced') return { group: '', figure: undefined };
      const price = sort === 'price-dry' ? worth.dry : worth.starch;
      // Prices in different money cannot be put in order.
      return { group: lot.currency, figure: price && perPound(price, lot) };
    }
  }
}

function compareRanks(a: Rank, b: Rank): number {
  if (!a.figure || !b.figure) return Number(!a.figure) - Number(!b.figure);
  if (a.group !== b.group) return a.group < b.group ? -1 : 1;
  return compare(a.figure, b.figure);
}
