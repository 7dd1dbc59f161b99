/**
 * Splitting a whole number of units (cents, seats) by weights so that not one is lost: Hamilton's method of
 * largest remainders. A tie between remainders goes to the earlier item.
 */

/**
 * Shares `total` units out in proportion to `weights`; the shares add up to the total.
 * 10000 cents by 1, 1, 1 is 3334, 3333, 3333. A negative total is shared as its positive and the signs turned.
 * Throws a RangeError where a weight is negative or all are zero.
 */
export function shareOut(total: bigint, weights: readonly bigint[]): bigint[] {
  const sum = weights.reduce((whole, weight) => whole + weight, 0n);
  if (weights.some((weight) => weight < 0n) || sum === 0n) {
    throw new RangeError('Weights must not be negative, and one at least must be above zero');
  }
  if (total < 0n) return shareOut(-total, weights).map((share) => -share);
  const shares = weights.map((weight) => (total * weight) / sum);
  const left = total - shares.reduce((whole, share) => whole + share, 0n);
  const byRemainder = weights
    .map((weight, index) => ({ index, remainder: (total * weight) % sum }))
    .sort((a, b) => (a.remainder === b.remainder ? a.index - b.index : a.remainder > b.remainder ? -1 : 1));
  for (const { index } of byRemainder.slice(0, Number(left))) shares[index] = (shares[index] ?? 0n) + 1n;
  return shares;
}
