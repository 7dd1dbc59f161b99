/**
 * How far an agreement's deliveries have come: tons against what was committed, means and spread of each test, and the
 * days one by one. A composite's figures count for each load that it covers, by that load's weight; in the spread they
 * are one result.
 */

import { TESTED, type Tested } from '../agreement/measures.ts';
import type { LocalDate } from '../dates/local-date.ts';
import { committedRange } from '../deliveries/committed-range.ts';
import type { DeliveredLoad } from '../deliveries/delivered-load.ts';
import { type Exact, isZero, multiply, percent, subtract, ZERO } from '../numbers/exact.ts';
import { RunningSum } from '../numbers/running-sum.ts';
import { fromPounds } from '../quantities/units.ts';
import { type LabResult, type TestRules, usedFigure } from '../samples/lab-result.ts';
import { type Spread, spreadOf, type Weighted, weightedMean } from './spread.ts';

/** A delivery as it counts here. Void tickets and refused loads are left out by whoever gathers them. */
export interface CountedLoad {
  readonly load: DeliveredLoad;
  readonly result: LabResult | undefined;
  readonly rules: TestRules;
  /** `YYYY-MM-DD HH:MM` on the agreement's clock. */
  readonly deliveredAt: string;
  /** In minor units, once it has settled. */
  readonly value: bigint | undefined;
}

/** What a mean is weighted by: most tests are shares of the dry matter, some of the load as it came. */
export type Weighting = 'dry-matter' | 'as-fed';

const AS_FED: ReadonlySet<Tested> = new Set<Tested>(['dry-matter', 'aflatoxin', 'vomitoxin']);

export interface TestProgress {
  readonly measure: Tested;
  readonly mean: Exact;
  readonly weightedBy: Weighting;
  /** Loads whose figures the mean is of. */
  readonly loads: number;
  /** Of the results, each once. */
  readonly spread: Spread;
}

/** Each test that was reported, in the order of the measures. Dry matter counts by the weight as delivered. */
export function testProgress(counted: readonly CountedLoad[]): readonly TestProgress[] {
  return TESTED.flatMap((measure): TestProgress[] => {
    const weighted: Weighted[] = [];
    const results = new Map<string, Exact>();
    const weightedBy = AS_FED.has(measure) ? 'as-fed' : 'dry-matter';
    for (const { load, result, rules } of counted) {
      const value = result && usedFigure(result, measure, rules);
      if (!result || !value) continue;
      const dry = dryPounds(load, result, rules);
      weighted.push({ value, weight: weightedBy === 'as-fed' ? load.netPounds : dry });
      results.set(result.sample, value);
    }
    const [mean, spread] = [weightedMean(weighted), spreadOf([...results.values()])];
    return mean && spread ? [{ measure, mean, weightedBy, loads: weighted.length, spread }] : [];
  });
}

function dryPounds({ netPounds }: DeliveredLoad, result: LabResult, rules: TestRules): Exact {
  return multiply(netPounds, percent(usedFigure(result, 'dry-matter', rules) ?? ZERO));
}

/** Weights of some loads together, in pounds. */
export interface Delivered {
  readonly loads: number;
  readonly wet: Exact;
  /** Dry matter of the loads that were tested. */
  readonly dry: Exact;
  readonly untestedLoads: number;
  readonly untestedWet: Exact;
  readonly starch: Exact;
  readonly ndf: Exact;
  /** Of the loads that have settled, in minor units. */
  readonly value: bigint;
  readonly unsettledLoads: number;
}

/** Starch and NDF are those of the tested loads that report them. */
export function deliveredOf(counted: readonly CountedLoad[]): Delivered {
  const [wet, dry, untestedWet] = [new RunningSum(), new RunningSum(), new RunningSum()];
  const [starch, ndf] = [new RunningSum(), new RunningSum()];
  let [untestedLoads, unsettledLoads, value] = [0, 0, 0n];
  for (const { load, result, rules, value: own } of counted) {
    wet.add(load.netPounds);
    if (own === undefined) unsettledLoads += 1;
    else value += own;
    if (!result) {
      untestedLoads += 1;
      untestedWet.add(load.netPounds);
      continue;
    }
    const ownDry = dryPounds(load, result, rules);
    dry.add(ownDry);
    starch.add(multiply(ownDry, percent(usedFigure(result, 'starch', rules) ?? ZERO)));
    ndf.add(multiply(ownDry, percent(usedFigure(result, 'ndf', rules) ?? ZERO)));
  }
  return {
    loads: counted.length,
    wet: wet.value(),
    dry: dry.value(),
    untestedLoads,
    untestedWet: untestedWet.value(),
    starch: starch.value(),
    ndf: ndf.value(),
    value,
    unsettledLoads,
  };
}

export interface DayProgress extends Delivered {
  readonly date: LocalDate;
  /** `HH:MM` of the first truck and the last. */
  readonly first: string;
  readonly last: string;
  /** Clock hours in which a truck came; loads over these are the trucks an hour. */
  readonly hours: number;
  /** The hour with the most trucks, the first of several: "14" and how many. */
  readonly busiest: { readonly hour: string; readonly loads: number };
  /** Whether every tested load reports starch and NDF, so that the day can be drawn whole. */
  readonly isStarchKnown: boolean;
  readonly isNdfKnown: boolean;
}

/** The days with deliveries, oldest first. */
export function progressByDay(counted: readonly CountedLoad[]): readonly DayProgress[] {
  const days = new Map<LocalDate, CountedLoad[]>();
  for (const one of counted) {
    const day = days.get(one.load.deliveredOn);
    if (day) day.push(one);
    else days.set(one.load.deliveredOn, [one]);
  }
  return [...days]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([date, loads]) => {
      const clocks = loads.map(({ deliveredAt }) => deliveredAt.slice(11)).sort();
      const hours = new Map<string, number>();
      for (const clock of clocks) hours.set(clock.slice(0, 2), (hours.get(clock.slice(0, 2)) ?? 0) + 1);
      const [hour = '', most = 0] = [...hours].reduce(
        (best, next) => (next[1] > best[1] ? next : best),
        ['', 0],
      );
      const tested = loads.flatMap(({ result, rules }) => (result ? [{ result, rules }] : []));
      const isKnown = (measure: Tested) =>
        tested.length > 0 &&
        tested.every(({ result, rules }) => usedFigure(result, measure, rules) !== undefined);
      return {
        ...deliveredOf(loads),
        date,
        first: clocks[0] ?? '',
        last: clocks.at(-1) ?? '',
        hours: hours.size,
        busiest: { hour, loads: most },
        isStarchKnown: isKnown('starch'),
        isNdfKnown: isKnown('ndf'),
      };
    });
}

/** What was committed: a weight, as fed or dry, and how far either side of it still keeps the promise. */
export interface Commitment {
  readonly amount: Exact;
  readonly unit: 'short-ton' | 'tonne';
  readonly weight: 'as-fed' | 'dry-matter';
  readonly tolerancePercent: Exact | undefined;
}

export interface AgainstCommitted {
  /** In the commitment's own unit and weight. */
  readonly delivered: Exact;
  readonly least: Exact;
  readonly most: Exact;
  readonly standing: 'under' | 'within' | 'over';
  /** What is still to come until the amount; below zero for what came beyond it. */
  readonly remaining: Exact;
  /** Percent of the amount. */
  readonly percent: Exact;
  /** Loads that are not counted, since dry tons are asked for and they are not tested. */
  readonly uncounted: number;
}

/** 1,500 short tons within 10 % are kept from 1,350 to 1,650, its ends among them. */
export function againstCommitted(commitment: Commitment, delivered: Delivered): AgainstCommitted {
  const { amount, unit, weight, tolerancePercent } = commitment;
  const tons = fromPounds(weight === 'as-fed' ? delivered.wet : delivered.dry, unit);
  const { least, most } = committedRange(amount, tolerancePercent);
  const isBelow = subtract(tons, least).n < 0n;
  const isAbove = subtract(most, tons).n < 0n;
  return {
    delivered: tons,
    least,
    most,
    standing: isBelow ? 'under' : isAbove ? 'over' : 'within',
    remaining: subtract(amount, tons),
    percent: isZero(amount)
      ? ZERO
      : multiply({ n: tons.n * amount.d, d: tons.d * amount.n }, { n: 100n, d: 1n }),
    uncounted: weight === 'dry-matter' ? delivered.untestedLoads : 0,
  };
}
