/**
 * Whether the two ends of a range, either of which may be left out, are in order.
 */
import { compare, decimal } from '../numbers/exact.ts';

export function inOrder(low: string | undefined, high: string | undefined): boolean {
  return low === undefined || high === undefined || compare(decimal(low), decimal(high)) <= 0;
}
