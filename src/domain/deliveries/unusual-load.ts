/**
 * Weights that no truck has: a digit too many or too few, or the wrong unit.
 */
import { compare, whole } from '../numbers/exact.ts';
import { printDecimal } from '../numbers/printing.ts';
import type { DeliveredLoad } from './delivered-load.ts';

/** Pounds. No truckload of feed is as light or as heavy. */
const LIGHTEST_USUAL = whole(500);
const HEAVIEST_USUAL = whole(200_000);

/** What is unusual about a load, in words; undefined for any that a truck could bring. */
export function tellUnusualLoad({ ticket, netPounds }: DeliveredLoad): string | undefined {
  const isUsual = compare(netPounds, LIGHTEST_USUAL) >= 0 && compare(netPounds, HEAVIEST_USUAL) <= 0;
  if (isUsual) return undefined;
  return `${ticket} weighs ${printDecimal(netPounds)} lb net, which no usual truck does; is a weight or its unit mistyped?`;
}
