/**
 * Every leaf of a question's record, and the same record with that one leaf another.
 */
import type { RetestRecord } from '../../../src/domain/retests/retest-record.ts';

type Leaf = string | number | boolean | null;

/** What a word of a closed list becomes: another one of it. */
const OTHER_WORDS: readonly (readonly [path: RegExp, other: (word: string) => string])[] = [
  [/(^asker|\.by|\.paidBy)$/, (side) => (side === 'seller' ? 'buyer' : 'seller')],
  [/\.tester$/, (tester) => (tester === 'seller' ? 'referee' : 'seller')],
  [/\.standing$/, (standing) => (standing === 'contested' ? 'counts' : 'contested')],
  [/^ending\.ending$/, (ending) => (ending === 'agreed' ? 'decided' : 'agreed')],
  [/^proposals\.\d+\.ending$/, (ending) => (ending === 'agree' ? 'withdraw' : 'agree')],
  [/\.bearer$/, (bearer) => (bearer === 'split' ? 'seller' : 'split')],
  [/\.answer$/, (answer) => (answer === 'refused' ? 'withdrawn' : 'refused')],
  [/\.kind$/, (kind) => (kind === 'fee' ? 'credit-note' : 'fee')],
  [/^timeZone$/, () => 'Asia/Tokyo'],
];

function otherThan(leaf: Leaf, path: string): Leaf {
  if (leaf === null) return 'X';
  if (typeof leaf === 'boolean') return !leaf;
  if (typeof leaf === 'number') return leaf + 1;
  const word = OTHER_WORDS.find(([shape]) => shape.test(path));
  if (word) return word[1](leaf);
  if (/^\d{4}-\d{2}-\d{2}T/.test(leaf)) return '2031-01-17T09:13:00.000Z';
  if (/^\d{4}-\d{2}-\d{2}$/.test(leaf)) return '2031-01-17';
  return /^-?\d+(\.\d+)?$/.test(leaf) ? `${leaf}7` : `${leaf} X`;
}

function* leavesOf(value: unknown, path: readonly string[]): Generator<readonly string[]> {
  if (typeof value === 'object' && value !== null) {
    for (const [key, item] of Object.entries(value)) yield* leavesOf(item, [...path, key]);
  } else if (value !== undefined) {
    yield path;
  }
}

function withOther(value: unknown, [key, ...rest]: readonly string[], whole: string): unknown {
  if (key === undefined) return otherThan(value as Leaf, whole);
  if (Array.isArray(value))
    return value.map((item, index) => (String(index) === key ? withOther(item, rest, whole) : item));
  const group = value as Readonly<Record<string, unknown>>;
  return { ...group, [key]: withOther(group[key], rest, whole) };
}

/** Such as "figures.0.value", with the record in which that is another. */
export function* changedLeaves(
  record: RetestRecord,
): Generator<{ readonly path: string; readonly changed: RetestRecord }> {
  for (const leaf of leavesOf(record, [])) {
    const path = leaf.join('.');
    yield { path, changed: withOther(record, leaf, path) as RetestRecord };
  }
}
