/**
 * Who bears what a retest cost, by the agreed rule.
 */
import type { RetestRules } from '../agreement/retest-rules.ts';
import { compare, type Exact } from '../numbers/exact.ts';
import { shareOut } from '../numbers/share-out.ts';
import { distance } from './figures.ts';

export type Side = 'seller' | 'buyer';

export interface CostGround {
  readonly rule: RetestRules['fee'];
  readonly asker: Side;
  /** The decision moves the price the asker's way. */
  readonly isMovedToAsker: boolean;
  /** What the asker makes of it, and what the other side holds to: the figure that was first reported. */
  readonly held: { readonly asker: Exact; readonly other: Exact };
  /** Undefined where no referee has tested. */
  readonly referee: Exact | undefined;
}

/** Which side bears all of it, or `split`. */
export function costBearer({ rule, asker, isMovedToAsker, held, referee }: CostGround): Side | 'split' {
  const other = otherSide(asker);
  switch (rule) {
    case 'split':
      return 'split';
    case 'asker-unless-moved':
      return isMovedToAsker ? other : asker;
    case 'further-from-referee': {
      if (!referee) return 'split';
      const order = compare(distance(held.asker, referee), distance(held.other, referee));
      if (order === 0) return 'split';
      return order > 0 ? asker : other;
    }
  }
}

/** Minor units that each side bears: of an odd cent that is split, the seller bears it. */
export function shareCosts(total: bigint, bearer: Side | 'split'): Readonly<Record<Side, bigint>> {
  const [seller = 0n, buyer = 0n] = shareOut(
    total,
    bearer === 'split' ? [1n, 1n] : bearer === 'seller' ? [1n, 0n] : [0n, 1n],
  );
  return { seller, buyer };
}

export function otherSide(side: Side): Side {
  return side === 'seller' ? 'buyer' : 'seller';
}
