/**
 * Matches a list of loads with another: a party's own with the record, or one party's with the other's.
 * First by the number on the ticket, then what is left by day, truck and weight at the least cost of all.
 */
import { numbersOf, pairByNumberAlone, pairByTicket } from './by-ticket.ts';
import { Tares } from './causes/tares.ts';
import { type Difference, differencesOf, isExactlySameWeight } from './differences.ts';
import { groupsOf } from './groups.ts';
import { type ListRow, type ListSide, type ReadRow, readList } from './list-row.ts';
import { ALONE, type Likening, pairCost, type Tolerance, USUAL_TOLERANCE } from './pair-cost.ts';
import { type Bounds, pairUp, type RowPair } from './pair-up.ts';
import { doublesAmong, withoutDoubles } from './twice.ts';

/**
 * A group of rows without a number, in which more than six million pairs are possible or choosing takes more than a
 * hundred million looks (some ten seconds), is told to be too large. A season of a hundred thousand rows is solved even
 * where one list has neither numbers nor trucks; twenty thousand loads of one day that all weigh the same are not.
 */
export const USUAL_BOUNDS: Bounds = { pairs: 6_000_000, steps: 100_000_000 };

export interface MatchingSettings {
  /** Decimals of the currency's minor unit. */
  readonly decimals: number;
  readonly tolerance?: Tolerance;
  readonly bounds?: Bounds;
}

/** How a row ends. Every row of both lists is in exactly one. */
export type Outcome =
  | {
      readonly kind: 'pair';
      readonly mine: ListRow;
      readonly record: ListRow;
      /** What brought them together. */
      readonly by: 'ticket' | 'likeness';
      /** None where the two agree. */
      readonly differences: readonly Difference[];
      /** The weights are in different units, and the same as far as the coarser figure can say. */
      readonly isToRounding: boolean;
    }
  | {
      readonly kind: 'only';
      readonly in: ListSide;
      readonly row: ListRow;
      /** The row is one of a group that is too large to be solved, so that nobody looked for its partner to the end. */
      readonly isUndecided: boolean;
    }
  /** The row says again what another of its own list says. */
  | { readonly kind: 'twice'; readonly in: ListSide; readonly row: ListRow; readonly of: string };

export type PairOutcome = Extract<Outcome, { kind: 'pair' }>;

/**
 * The outcomes: pairs and rows only in mine or twice there in the order of mine, then what is left of the record in its
 * order. Which outcomes there are hangs on neither order; exchanging the lists exchanges the sides of each.
 * In time n log n for lists whose loads are numbered alike but for some.
 */
export function matchLists(
  lists: { readonly mine: readonly ListRow[]; readonly record: readonly ListRow[] },
  { decimals, tolerance = USUAL_TOLERANCE, bounds = USUAL_BOUNDS }: MatchingSettings,
): Outcome[] {
  const mine = readList(lists.mine, 'mine');
  const record = readList(lists.record, 'record');
  const tares = new Tares({ mine, record });
  const numbers = numbersOf(mine, record);
  const { numberOf } = numbers;
  const known = { numberOf, tares, tolerance };
  const { pairs, isNumberedAlike, isAnswered } = pairByTicket(numbers, known);

  const pairing = new Pairing(mine.length, record.length);
  for (const pair of pairs) pairing.add(pair, 'ticket');
  const isPaired = (row: ReadRow) => pairing.partnerOf(row) !== undefined;
  const looking = {
    mine: withoutDoubles(mine, { numberOf, isPaired }),
    record: withoutDoubles(record, { numberOf, isPaired }),
  };
  const undecided = new Set<ReadRow>();
  const likening = { tolerance, isNumberedAlike, numberOf, isAnswered };
  for (const pair of pairByLikeness(looking, { likening, bounds, undecided })) pairing.add(pair, 'likeness');
  const isLeft = (row: ReadRow) => !isPaired(row);
  const left = { mine: mine.filter(isLeft), record: record.filter(isLeft) };
  for (const pair of pairByNumberAlone(left, { ...known, isNumberedAlike })) pairing.add(pair, 'ticket');

  const comparing = { tares, decimals, numberOf: isNumberedAlike ? numberOf : () => null };
  const outcomes: Outcome[] = [];
  for (const side of ['mine', 'record'] as const) {
    const rows = side === 'mine' ? mine : record;
    const doubles = doublesAmong(rows, { numberOf, partnerOf: (row) => pairing.partnerOf(row) });
    for (const row of rows) {
      const partner = pairing.partnerOf(row);
      if (partner && side === 'record') continue;
      const of = doubles.get(row);
      if (partner) {
        const [by, sides] = [pairing.by(row), { mine: row, record: partner }];
        const differences = differencesOf(sides, comparing);
        const isDifferent = differences.some(({ aspect }) => aspect === 'weight');
        const isToRounding = !isDifferent && !isExactlySameWeight(row, partner);
        outcomes.push({ kind: 'pair', mine: row.row, record: partner.row, by, differences, isToRounding });
      } else if (of && !undecided.has(row))
        outcomes.push({ kind: 'twice', in: side, row: row.row, of: of.row.id });
      else outcomes.push({ kind: 'only', in: side, row: row.row, isUndecided: undecided.has(row) });
    }
  }
  return outcomes;
}

/** Who has found whom, by the places of rows in their lists. */
class Pairing {
  private readonly partners: Record<ListSide, (ReadRow | undefined)[]>;
  private readonly byLikeness = new Set<ReadRow>();

  constructor(mine: number, record: number) {
    const none = (length: number) => Array.from({ length }, () => undefined);
    this.partners = { mine: none(mine), record: none(record) };
  }

  add([mine, record]: RowPair, by: PairOutcome['by']): void {
    this.partners.mine[mine.place] = record;
    this.partners.record[record.place] = mine;
    if (by === 'likeness') this.byLikeness.add(mine);
  }

  partnerOf({ side, place }: ReadRow): ReadRow | undefined {
    return this.partners[side][place];
  }

  by(mine: ReadRow): PairOutcome['by'] {
    return this.byLikeness.has(mine) ? 'likeness' : 'ticket';
  }
}

interface ByLikeness {
  readonly likening: Likening;
  readonly bounds: Bounds;
  /** Rows of groups that are too large are added. */
  readonly undecided: Set<ReadRow>;
}

/** The second pass, group by group. */
function pairByLikeness(
  { mine, record }: { readonly mine: readonly ReadRow[]; readonly record: readonly ReadRow[] },
  { likening, bounds, undecided }: ByLikeness,
): RowPair[] {
  const { groups, near } = groupsOf(mine, record, likening.tolerance);
  const cost = (a: ReadRow, b: ReadRow) => pairCost(a, b, likening);
  return groups.flatMap((group) => {
    const pairs = pairUp({ ...group, cost, near, alone: ALONE, bounds });
    if (!pairs) for (const row of [...group.mine, ...group.record]) undecided.add(row);
    return pairs ?? [];
  });
}

/** What a row of the outcome is called; a pair that differs has one name for each respect. */
export type Standing =
  | 'agrees'
  | `${Difference['aspect']}-differs`
  | 'only-in-mine'
  | 'only-in-record'
  | 'twice';

/** An outcome of loads or of payments, as far as its names go. */
export type NamedOutcome =
  | { readonly kind: 'pair'; readonly differences: readonly Pick<Difference, 'aspect'>[] }
  | { readonly kind: 'only'; readonly in: ListSide }
  | { readonly kind: 'twice' };

/** An outcome by its names: `['agrees']`, `['weight-differs', 'amount-differs']`, `['only-in-mine']`. */
export function standingsOf(outcome: NamedOutcome): readonly Standing[] {
  switch (outcome.kind) {
    case 'pair':
      return outcome.differences.length === 0
        ? ['agrees']
        : outcome.differences.map(({ aspect }): Standing => `${aspect}-differs`);
    case 'only':
      return [`only-in-${outcome.in}`];
    case 'twice':
      return ['twice'];
  }
}

/** How many outcomes have each of these names; a pair that differs in several respects counts in each. */
export function countStandings<S extends Standing>(
  standings: readonly S[],
  outcomes: readonly NamedOutcome[],
): Readonly<Record<S, number>> {
  const found = outcomes.flatMap(standingsOf);
  const counts = new Map<Standing, number>();
  for (const standing of found) counts.set(standing, (counts.get(standing) ?? 0) + 1);
  return Object.fromEntries(standings.map((standing) => [standing, counts.get(standing) ?? 0])) as Record<
    S,
    number
  >;
}
