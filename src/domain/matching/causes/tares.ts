/**
 * All tares of two lists, to be found by their weight.
 */
import { compare, type Exact } from '../../numbers/exact.ts';
import { printDecimal } from '../../numbers/printing.ts';
import { compareTexts, type ListSide, type ReadRow } from '../list-row.ts';

interface Weighed {
  readonly side: ListSide;
  readonly row: ReadRow;
}

interface Around {
  readonly own: ReadRow;
  readonly other: ReadRow;
  /** Any day where it is not given. */
  readonly withinDays?: number;
}

/** Indexed when first asked: most lists never ask. */
export class Tares {
  /** By pounds, then by truck, in the order of days. */
  private index: Map<string, Map<string, Weighed[]>> | undefined;

  constructor(
    private readonly lists: { readonly mine: readonly ReadRow[]; readonly record: readonly ReadRow[] },
  ) {}

  /** The load nearest in days, of another truck, that has this tare; of equals, first by id, the record's first. */
  ofAnotherTruck(pounds: Exact, around: Around): { in: ListSide; id: string } | undefined {
    this.index ??= this.build();
    const { own, other, withinDays = Number.POSITIVE_INFINITY } = around;
    let best: Weighed | undefined;
    for (const [truck, weighed] of this.index.get(printDecimal(pounds)) ?? []) {
      if (truck !== '' && (truck === own.truck || truck === other.truck)) continue;
      const isOther = ({ row }: Weighed) => row !== own && row !== other && sameWeight(row, pounds);
      for (const found of nearest(weighed, own.day, isOther)) {
        if (Math.abs(found.row.day - own.day) > withinDays) continue;
        if (!best || isBefore(found, best, own.day)) best = found;
      }
    }
    return best && { in: best.side, id: best.row.row.id };
  }

  private build(): Map<string, Map<string, Weighed[]>> {
    const index = new Map<string, Map<string, Weighed[]>>();
    for (const side of ['record', 'mine'] as const) {
      for (const row of this.lists[side]) {
        if (!row.tarePounds) continue;
        const key = printDecimal(row.tarePounds);
        const byTruck = index.get(key) ?? new Map<string, Weighed[]>();
        index.set(key, byTruck);
        const weighed = byTruck.get(row.truck ?? '');
        if (weighed) weighed.push({ side, row });
        else byTruck.set(row.truck ?? '', [{ side, row }]);
      }
    }
    for (const byTruck of index.values()) {
      for (const weighed of byTruck.values()) weighed.sort(inOrder);
    }
    return index;
  }
}

function sameWeight({ tarePounds }: ReadRow, pounds: Exact): boolean {
  return tarePounds !== undefined && compare(tarePounds, pounds) === 0;
}

function inOrder(a: Weighed, b: Weighed): number {
  return a.row.day - b.row.day || byName(a, b);
}

function byName(a: Weighed, b: Weighed): number {
  return compareTexts(a.row.row.id, b.row.row.id) || (a.side === b.side ? 0 : a.side === 'record' ? -1 : 1);
}

function isBefore(a: Weighed, b: Weighed, day: number): boolean {
  return (Math.abs(a.row.day - day) - Math.abs(b.row.day - day) || inOrder(a, b)) < 0;
}

/** Of a list in the order of days, the last that fits before the day and the first that fits from it on. */
function nearest(weighed: readonly Weighed[], day: number, fits: (one: Weighed) => boolean): Weighed[] {
  let low = 0;
  let high = weighed.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((weighed[middle]?.row.day ?? 0) < day) low = middle + 1;
    else high = middle;
  }
  let before = low - 1;
  while (before >= 0 && !fits(weighed[before] as Weighed)) before--;
  let after = low;
  while (after < weighed.length && !fits(weighed[after] as Weighed)) after++;
  return [weighed[before], weighed[after]].filter((one) => one !== undefined);
}
