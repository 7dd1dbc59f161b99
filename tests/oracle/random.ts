/**
 * Seeded chance (mulberry32): the same seed gives the same case on every machine.
 */
export type Chance = {
  /** From 0 up to, not including, 1. */
  next: () => number;
  /** Both ends included. */
  integer: (low: number, high: number) => number;
  happens: (probability: number) => boolean;
  pick: <T>(items: readonly T[]) => T;
  /** A new array. */
  shuffled: <T>(items: readonly T[]) => T[];
};

export function chanceFrom(seed: number): Chance {
  // Neighbouring seeds start far apart.
  let state = Math.imul(seed ^ 0x5bd1e995, 0x9e3779b1) >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  const integer = (low: number, high: number): number => low + Math.floor(next() * (high - low + 1));
  const pick = <T>(items: readonly T[]): T => {
    const item = items[integer(0, items.length - 1)];
    if (item === undefined) throw new Error('nothing to pick from');
    return item;
  };
  const shuffled = <T>(items: readonly T[]): T[] => {
    const keyed = items.map((item) => ({ item, key: next() }));
    return keyed.sort((a, b) => a.key - b.key).map(({ item }) => item);
  };
  return { next, integer, happens: (probability) => next() < probability, pick, shuffled };
}
