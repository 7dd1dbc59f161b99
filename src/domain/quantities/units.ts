/**
 * Units of weight and distance, by their legal definitions: 1 lb = 0.45359237 kg exactly, a short ton is 2,000 lb,
 * a hundredweight 100 lb, a tonne 1,000 kg, a mile 1.609344 km (NIST SP 811; Handbook 44 appendix C).
 * Bushels are not here: how many pounds a bushel holds belongs to an agreement's reference.
 */
import { divide, type Exact, multiply, ONE, ratio, whole } from '../numbers/exact.ts';

export const WEIGHT_UNITS = ['lb', 'kg', 'cwt', 'short-ton', 'tonne'] as const;
export type WeightUnit = (typeof WEIGHT_UNITS)[number];

/** Units that a scale ticket may be in. */
export const SCALE_UNITS = ['lb', 'kg', 'short-ton', 'tonne'] as const;
export type ScaleUnit = (typeof SCALE_UNITS)[number];

export const DISTANCE_UNITS = ['mile', 'km'] as const;
export type DistanceUnit = (typeof DISTANCE_UNITS)[number];

const POUND_IN_KILOGRAMS = ratio(45359237n, 100000000n);
const MILE_IN_KILOMETRES = ratio(1609344n, 1000000n);

const POUNDS_IN: Record<WeightUnit, Exact> = {
  lb: ONE,
  cwt: whole(100),
  'short-ton': whole(2000),
  kg: divide(ONE, POUND_IN_KILOGRAMS),
  tonne: divide(whole(1000), POUND_IN_KILOGRAMS),
};

/** A weight in `unit` as pounds, exactly: 1 tonne is 2204.622621849… lb. */
export function toPounds(weight: Exact, unit: WeightUnit): Exact {
  return unit === 'lb' ? weight : multiply(weight, POUNDS_IN[unit]);
}

/** Pounds as a weight in `unit`, exactly: 47,120 lb is 23.56 short tons. */
export function fromPounds(pounds: Exact, unit: WeightUnit): Exact {
  return unit === 'lb' ? pounds : divide(pounds, POUNDS_IN[unit]);
}

/** A distance in `from` as one in `to`, exactly: 10 miles are 16.09344 km. */
export function convertDistance(distance: Exact, from: DistanceUnit, to: DistanceUnit): Exact {
  if (from === to) return distance;
  return from === 'mile' ? multiply(distance, MILE_IN_KILOMETRES) : divide(distance, MILE_IN_KILOMETRES);
}
