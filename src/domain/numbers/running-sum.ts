/**
 * A sum of many exact numbers. Adding quotients one by one multiplies their denominators, so that a long sum of mixed
 * decimals grows without end; here each denominator keeps its own count until somebody asks for the sum.
 */
import { add, type Exact, ZERO } from './exact.ts';

export class RunningSum {
  readonly #numerators = new Map<bigint, bigint>();

  add({ n, d }: Exact): void {
    this.#numerators.set(d, (this.#numerators.get(d) ?? 0n) + n);
  }

  /** The exact sum so far. */
  value(): Exact {
    return [...this.#numerators].reduce((sum, [d, n]) => add(sum, { n, d }), ZERO);
  }
}
