/**
 * The price stair's geometry: each line of a settlement as a step from the sum before it to the sum after it, and the
 * total as a last step from nothing. In parts of the stair's width; pictures alone are worked out from it.
 */
export interface StairStep {
  /** Left and right end, 0 to 1. */
  readonly from: number;
  readonly to: number;
  /** Whether it takes away from the sum before it. */
  readonly isDown: boolean;
}

export interface Stair {
  readonly steps: readonly StairStep[];
  readonly total: StairStep;
  /** Where nothing stands, 0 to 1. */
  readonly zero: number;
}

/** 1815.82, 342.99, -71.83: steps from 0 to 1815.82, on to 2158.81, back to 2086.98. */
export function stairOf(amounts: readonly string[]): Stair {
  const sums = [0];
  for (const amount of amounts) sums.push((sums.at(-1) ?? 0) + Number(amount));
  const lowest = Math.min(...sums);
  const width = Math.max(...sums) - lowest || 1;
  const step = (before: number, after: number): StairStep => ({
    from: (Math.min(before, after) - lowest) / width,
    to: (Math.max(before, after) - lowest) / width,
    isDown: after < before,
  });
  return {
    steps: amounts.map((_, index) => step(sums[index] ?? 0, sums[index + 1] ?? 0)),
    total: step(0, sums.at(-1) ?? 0),
    zero: (0 - lowest) / width,
  };
}
