/**
 * All tares of two lists, to be found by their weight.
 */
import { compare, type Exact } from '../../numbers/exact.ts';
import { printDecimal } from '../../numbers/printing.ts';
import { compareTexts, type ListSide, type ReadRow } from '../list-row.ts';

interface Around {
  readonly own: ReadRow;
  readonly other: ReadRow;
  /** Any day where it is not given. */
  readonly withinDays?: number;
}

/** Rows of one tare, truck and list, in the order of days. */
type Weighed = ReadRow[];

/** Indexed when first asked: most lists never ask. */
export class Tares {
  /** By pounds, then by list and truck. */
  private index: Map<string, Map<string, Weighed>> | undefined;

  constructor(
    private readonly lists: { readonly mine: readonly ReadRow[]; readonly record: readonly ReadRow[] },
  ) {}

  /**
   * The load of another truck that has this tare: the nearest in days, of equally near ones the earlier, then that of the
   * other's list, then by id.
   */
  ofAnotherTruck(pounds: Exact, around: Around): { in: ListSide; id: string } | undefined {
    this.index ??= this.build();
    const { own, other, withinDays = Number.POSITIVE_INFINITY } = around;
    const isOther = (row: ReadRow) => row !== own && row !== other && hasTare(row, pounds);
    let best: ReadRow | undefined;
    for (const weighed of this.index.get(printDecimal(pounds))?.values() ?? []) {
      const truck = weighed[0]?.truck ?? null;
      if (truck !== null && (truck === own.truck || truck === other.truck)) continue;
      for (const found of nearest(weighed, own.day, isOther)) {
        if (Math.abs(found.day - own.day) > withinDays) continue;
        if (!best || isBefore(found, best, own)) best = found;
      }
    }
    return best && { in: best.side, id: best.row.id };
  }

  private build(): Map<string, Map<string, Weighed>> {
    const index = new Map<string, Map<string, Weighed>>();
    for (const row of [...this.lists.mine, ...this.lists.record]) {
      const tare = row.tarePounds;
      if (!tare) continue;
      const pounds = printDecimal(tare);
      const ofPounds = index.get(pounds) ?? new Map<string, Weighed>();
      index.set(pounds, ofPounds);
      const key = `${row.side} ${row.truck ?? ''}`;
      const weighed = ofPounds.get(key);
      if (weighed) weighed.push(row);
      else ofPounds.set(key, [row]);
    }
    for (const ofPounds of index.values()) {
      for (const weighed of ofPounds.values()) weighed.sort((a, b) => a.day - b.day || byId(a, b));
    }
    return index;
  }
}

function hasTare({ tarePounds }: ReadRow, pounds: Exact): boolean {
  return tarePounds !== undefined && compare(tarePounds, pounds) === 0;
}

function byId(a: ReadRow, b: ReadRow): number {
  return compareTexts(a.row.id, b.row.id);
}

function isBefore(a: ReadRow, b: ReadRow, own: ReadRow): boolean {
  const order =
    Math.abs(a.day - own.day) - Math.abs(b.day - own.day) ||
    a.day - b.day ||
    Number(a.side === own.side) - Number(b.side === own.side) ||
    byId(a, b);
  return order < 0;
}

/** Of a list in the order of days, the last that fits before the day and the first that fits from it on. */
function nearest(weighed: Weighed, day: number, fits: (row: ReadRow) => boolean): ReadRow[] {
  let low = 0;
  let high = weighed.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((weighed[middle]?.day ?? 0) < day) low = middle + 1;
    else high = middle;
  }
  // At most the two rows that are compared do not fit: neither walk is long.
  let before = low - 1;
  for (let row = weighed[before]; row && !fits(row); row = weighed[before]) before--;
  let after = low;
  for (let row = weighed[after]; row && !fits(row); row = weighed[after]) after++;
  return [weighed[before], weighed[after]].filter((row) => row !== undefined);
}
