/**
 * What a truck usually weighs, by its last loads, and how a new load of it compares: another truck's tare or a slipped
 * digit stands out. Weights are in pounds.
 */
import {
  add,
  compare,
  divide,
  type Exact,
  isNegative,
  multiply,
  negate,
  percent,
  subtract,
  whole,
} from '../numbers/exact.ts';
import { printDecimal } from '../numbers/printing.ts';
import { fromPounds, type ScaleUnit } from '../quantities/units.ts';

/** One load of a truck. */
export interface TruckWeights {
  readonly tare: Exact;
  readonly net: Exact;
}

export interface UsualTruck {
  readonly tare: Exact;
  readonly net: Exact;
  /** How many loads it is the middle of. */
  readonly loads: number;
}

/** The loads that count, at most and at least. */
export const LAST_LOADS = 10;
const FEWEST_LOADS = 3;
// How far off is still usual, as a share of it: fuel, mud and a passenger move a tare by a few hundredths, the filling
// moves a net by more. Common practice, no source.
export const TARE_APART = percent(whole(5));
export const NET_APART = percent(whole(30));

/** The medians of a truck's last loads, given newest last; undefined where there are fewer than three. */
export function usualTruck(loads: readonly TruckWeights[]): UsualTruck | undefined {
  const last = loads.slice(-LAST_LOADS);
  if (last.length < FEWEST_LOADS) return undefined;
  return {
    tare: median(last.map(({ tare }) => tare)),
    net: median(last.map(({ net }) => net)),
    loads: last.length,
  };
}

/** The middle of some values, or the mean of the two in the middle. There must be one. */
export function median(values: readonly Exact[]): Exact {
  const sorted = values.toSorted(compare);
  const upper = sorted[Math.floor(sorted.length / 2)];
  const lower = sorted[Math.floor((sorted.length - 1) / 2)];
  if (!upper || !lower) throw new RangeError('nothing has no middle');
  return divide(add(lower, upper), whole(2));
}

export interface TruckLoad extends TruckWeights {
  readonly ticket: string;
  readonly truck: string;
  /** In which the figures are said. */
  readonly unit: ScaleUnit;
}

/** How a load is unlike its truck's usual ones, a sentence for tare and net; none where it is like them. */
export function tellUnlikeTruck(load: TruckLoad, usual: UsualTruck): string[] {
  const told = (what: 'tare' | 'net') =>
    `${load.ticket}: the ${what} is ${say(load[what], load.unit)}; ${load.truck} had ${say(usual[what], load.unit)} in the middle of its last ${usual.loads} loads.`;
  const isOff = (what: 'tare' | 'net', share: Exact) =>
    compare(size(subtract(load[what], usual[what])), multiply(usual[what], share)) > 0;
  return [
    ...(isOff('tare', TARE_APART) ? [told('tare')] : []),
    ...(isOff('net', NET_APART) ? [told('net')] : []),
  ];
}

/** A gross that the truck's own usual tare leaves nothing of, before its tare is weighed; undefined for any other. */
export function tellEmptyGross(
  { ticket, truck, gross, unit }: Pick<TruckLoad, 'ticket' | 'truck' | 'unit'> & { readonly gross: Exact },
  usual: UsualTruck,
): string | undefined {
  if (compare(gross, usual.tare) > 0) return undefined;
  return `${ticket}: the gross is ${say(gross, unit)}, and ${truck} weighs ${say(usual.tare, unit)} empty by its last ${usual.loads} loads.`;
}

function size(value: Exact): Exact {
  return isNegative(value) ? negate(value) : value;
}

function say(pounds: Exact, unit: ScaleUnit): string {
  const places = unit === 'lb' || unit === 'kg' ? 0 : 2;
  return `${printDecimal(fromPounds(pounds, unit), places)} ${unit}`;
}
