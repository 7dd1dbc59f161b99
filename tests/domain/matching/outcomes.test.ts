import { describe, expect, test } from 'vitest';
import type { ListRow } from '../../../src/domain/matching/list-row.ts';
import { type MatchingSettings, matchLists, standingsOf } from '../../../src/domain/matching/match-lists.ts';
import { day, LOAD } from './one-pair.ts';

type Change = Partial<ListRow>;

/** Loads of which nothing is known but what each says. */
function rows(mark: string, changes: readonly Change[]): ListRow[] {
  const { priced: _, ...bare } = LOAD;
  return changes.map((change, index) => ({
    ...bare,
    gross: null,
    tare: null,
    amount: null,
    dryMatter: null,
    ...change,
    id: `${mark}${index + 1}`,
  }));
}

/** "m1-r2 agrees", "m3 only-in-mine", "m2 twice of m1". */
function ends(
  mine: readonly Change[],
  record: readonly Change[],
  settings?: Partial<MatchingSettings>,
): string[] {
  const outcomes = matchLists(
    { mine: rows('m', mine), record: rows('r', record) },
    { decimals: 2, ...settings },
  );
  return outcomes
    .map((outcome) => {
      const says = standingsOf(outcome).join(', ');
      if (outcome.kind === 'pair') return `${outcome.mine.id}-${outcome.record.id} ${says}`;
      const of = outcome.kind === 'twice' ? ` of ${outcome.of}` : outcome.isUndecided ? ', undecided' : '';
      return `${outcome.row.id} ${says}${of}`;
    })
    .sort();
}

const A = { ticket: '1002', net: '47120', truck: 'T1' };
const B = { ticket: '1020', net: '51840', truck: 'T2' };
const C = { ticket: '1031', net: '44300', truck: 'T3' };

describe('numbers that stand twice', () => {
  test('a load that is entered again is twice, in either list', () => {
    expect(ends([A, B, A], [A, B])).toEqual(['m1-r1 agrees', 'm2-r2 agrees', 'm3 twice of m1']);
    expect(ends([A, B], [A, B, A])).toEqual(['m1-r1 agrees', 'm2-r2 agrees', 'r3 twice of r1']);
  });

  test('one that is entered again with another weight is twice of the one that fits', () => {
    expect(ends([{ ...A, net: '44000' }, A], [A])).toEqual(['m1 twice of m2', 'm2-r1 agrees']);
  });

  test('one that is in neither but one list, twice', () => {
    expect(ends([A, A, B], [B])).toEqual(['m1 only-in-mine', 'm2 twice of m1', 'm3-r1 agrees']);
  });

  test('another load under a number that is taken finds its own partner', () => {
    expect(ends([A, { ...B, ticket: A.ticket }, C], [A, B, C])).toEqual([
      'm1-r1 agrees',
      'm2-r2 ticket-differs',
      'm3-r3 agrees',
    ]);
  });

  test('where both lists have the number twice, each row has its own partner', () => {
    const other = { ...B, ticket: A.ticket };
    expect(ends([A, other], [other, A])).toEqual(['m1-r2 agrees', 'm2-r1 agrees']);
  });

  test('the number of a load that is missing does not take the place of its own', () => {
    // B was entered under the number of A, and A is not in the list.
    expect(ends([{ ...B, ticket: A.ticket }, C], [A, B, C])).toEqual([
      'm1-r2 ticket-differs',
      'm2-r3 agrees',
      'r1 only-in-record',
    ]);
  });

  test('a number that nothing else speaks for is still that number', () => {
    expect(ends([{ ...A, net: '39977', deliveredOn: day('2026-10-20') }, B], [A, B])).toEqual([
      'm1-r1 weight-differs, date-differs',
      'm2-r2 agrees',
    ]);
  });
});

describe('lists that number loads otherwise, or not at all', () => {
  const own = [A, B, C].map((load, index) => ({ ...load, ticket: `Y-${index + 1}` }));

  test('numbers of their own are not held against the pairs', () => {
    expect(ends(own, [A, B, C])).toEqual(['m1-r1 agrees', 'm2-r2 agrees', 'm3-r3 agrees']);
    expect(ends([{ ...own[0], net: '47160' }, ...own.slice(1)], [A, B, C])).toEqual([
      'm1-r1 weight-differs',
      'm2-r2 agrees',
      'm3-r3 agrees',
    ]);
  });

  test('numbers that meet by chance bring nothing together', () => {
    const tens = [A, B, C].map((load, index) => ({ ...load, ticket: `${index + 1}` }));
    const turned = [tens[1], tens[2], tens[0]].map((load, index) => ({ ...load, ticket: `${index + 1}` }));
    expect(ends(tens, turned)).toEqual(['m1-r3 agrees', 'm2-r1 agrees', 'm3-r2 agrees']);
  });

  test('a text that everybody enters is no number', () => {
    const nine = Array.from({ length: 9 }, (_, index) => ({
      ticket: 'none',
      truck: null,
      net: String(40_000 + 1000 * index),
    }));
    expect(ends(nine, nine.toReversed())).toEqual(
      nine.map((_, index) => `m${index + 1}-r${9 - index} agrees`),
    );
  });

  test('two loads that are alike in all but their number of rows', () => {
    const bare = { ...A, ticket: null };
    expect(ends([bare, bare], [bare])).toEqual(['m1-r1 agrees', 'm2 twice of m1']);
    expect(ends([bare, bare], [bare, bare])).toEqual(['m1-r1 agrees', 'm2-r2 agrees']);
  });
});

describe('what is left', () => {
  const bare = (net: string, on = '2026-09-14') => ({ ticket: null, truck: null, net, deliveredOn: day(on) });

  test('the nearest is not taken where another way costs less in all', () => {
    // 47,120 is nearest to 47,140, which then leaves 47,480 with 46,860.
    expect(ends([bare('47120'), bare('47480')], [bare('47140'), bare('46860')])).toEqual([
      'm1-r2 weight-differs',
      'm2-r1 weight-differs',
    ]);
  });

  test('a day apart may be one load, two days may not, nor two trucks, nor past the tolerance', () => {
    expect(ends([bare('47120')], [bare('47120', '2026-09-15')])).toEqual(['m1-r1 date-differs']);
    expect(ends([bare('47120')], [bare('47120', '2026-09-16')])).toHaveLength(2);
    expect(ends([{ ...bare('47120'), truck: 'T1' }], [{ ...bare('47120'), truck: 'T2' }])).toHaveLength(2);
    expect(ends([bare('47120')], [bare('47590')])).toHaveLength(1);
    expect(ends([bare('47120')], [bare('47600')])).toHaveLength(2);
    const wide = { tolerance: { pounds: 100, basisPoints: 200 } };
    expect(ends([bare('47120')], [bare('47600')], wide)).toHaveLength(1);
  });

  test('two loads with numbers of their own are not taken for one because they weigh about the same', () => {
    expect(ends([A, B, { ...C, ticket: '1033' }], [A, B, { ...C, ticket: '1077', net: '44340' }])).toEqual([
      'm1-r1 agrees',
      'm2-r2 agrees',
      'm3 only-in-mine',
      'r3 only-in-record',
    ]);
  });

  test('a group that is too large is told, and nothing in it is guessed', () => {
    const many = Array.from({ length: 12 }, (_, index) => bare(String(47_000 + index)));
    const apart = bare('47120', '2026-10-01');
    const bounds = { pairs: 100, steps: 1_000_000 };
    const told = ends([...many, apart], [...many, apart], { bounds });
    expect(told.filter((line) => line.endsWith('undecided'))).toHaveLength(24);
    expect(told).toContain('m13-r13 agrees');
    expect(ends(many, many).every((line) => line.endsWith('agrees'))).toBe(true);
    expect(ends(many, many, { bounds: { pairs: 1000, steps: 100 } })).toHaveLength(24);
  });

  test('two thousand loads without a number that all look alike are solved', () => {
    const many = Array.from({ length: 1000 }, (_, index) => bare(String(47_000 + (index % 3))));
    expect(ends(many, many).filter((line) => line.endsWith('agrees'))).toHaveLength(1000);
  });
});

test('empty lists, and one of two', () => {
  expect(ends([], [])).toEqual([]);
  expect(ends([A], [])).toEqual(['m1 only-in-mine']);
  expect(ends([], [A])).toEqual(['r1 only-in-record']);
});

test('an id that stands twice is a defect', () => {
  const [row] = rows('m', [A]);
  expect(() =>
    matchLists({ mine: [row, row].flatMap((one) => one ?? []), record: [] }, { decimals: 2 }),
  ).toThrow('called "m1"');
});
