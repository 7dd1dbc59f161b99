/**
 * How the tests lie by day of delivery, and by truck or sample. Tickets name no field, so nothing is told by field.
 */
import type { Tested } from '../agreement/measures.ts';
import { type CountedLoad, type TestProgress, testProgress } from '../progress/progress.ts';

/** One test in the loads of one day, truck or sample. */
export interface TestGroup extends TestProgress {
  /** The date, the truck or the sample. */
  readonly of: string;
}

export interface MeasureSpread {
  /** Of all loads; its mean is weighted as the groups' are. */
  readonly whole: TestProgress;
  /** Days of delivery, oldest first. */
  readonly days: readonly TestGroup[];
  /** By `others`, by name. */
  readonly others: readonly TestGroup[];
}

export interface SeasonSpread {
  /** Trucks where tickets name any, otherwise samples. */
  readonly others: 'truck' | 'sample';
  /** Tested loads whose ticket names no truck, and are therefore in no group of `others`. */
  readonly truckless: number;
  /** Each test that was reported, in the order of the measures. */
  readonly measures: readonly MeasureSpread[];
}

export function seasonSpread(counted: readonly CountedLoad[]): SeasonSpread {
  const tested = counted.filter(({ result }) => result !== undefined);
  const hasTrucks = tested.some(({ load }) => isNamed(load.truck));
  const others = hasTrucks ? 'truck' : 'sample';
  const byDay = groups(tested, ({ load }) => load.deliveredOn);
  const byOther = groups(tested, ({ load, result }) => (hasTrucks ? load.truck : result?.sample));
  return {
    others,
    truckless: hasTrucks ? tested.filter(({ load }) => !isNamed(load.truck)).length : 0,
    measures: testProgress(tested).map((whole) => ({
      whole,
      days: byDay.get(whole.measure) ?? [],
      others: byOther.get(whole.measure) ?? [],
    })),
  };
}

function isNamed(name: string | undefined): name is string {
  return name !== undefined && name !== '';
}

function groups(
  loads: readonly CountedLoad[],
  nameOf: (one: CountedLoad) => string | undefined,
): ReadonlyMap<Tested, readonly TestGroup[]> {
  const named = new Map<string, CountedLoad[]>();
  for (const one of loads) {
    const name = nameOf(one);
    if (!isNamed(name)) continue;
    const group = named.get(name);
    if (group) group.push(one);
    else named.set(name, [one]);
  }
  const found = new Map<Tested, TestGroup[]>();
  for (const [of, group] of [...named].sort(([a], [b]) => (a < b ? -1 : 1))) {
    for (const test of testProgress(group)) {
      const told = { ...test, of };
      const list = found.get(test.measure);
      if (list) list.push(told);
      else found.set(test.measure, [told]);
    }
  }
  return found;
}
