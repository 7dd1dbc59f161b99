/**
 * Who bears what a retest cost. Each rule is a contract's own; none is published (published-checks.md, section 5).
 */
import { describe, expect, test } from 'vitest';
import { decimal } from '../../../src/domain/numbers/exact.ts';
import { type CostGround, costBearer, otherSide, shareCosts } from '../../../src/domain/retests/costs.ts';
import { chanceFrom } from '../../oracle/random.ts';

/** The asker makes 52.0 of a first figure of 54.0. */
const ground = (more: Partial<CostGround>): CostGround => ({
  rule: 'split',
  asker: 'buyer',
  isMovedToAsker: false,
  held: { asker: decimal('52.0'), other: decimal('54.0') },
  referee: undefined,
  ...more,
});

describe.each(['seller', 'buyer'] as const)('asked by the %s', (asker) => {
  const other = otherSide(asker);
  const bearer = (more: Partial<CostGround>) => costBearer(ground({ asker, ...more }));

  test('asker-unless-moved: the other side where the price moved the asker’s way', () => {
    expect(bearer({ rule: 'asker-unless-moved', isMovedToAsker: true })).toBe(other);
    expect(bearer({ rule: 'asker-unless-moved', isMovedToAsker: false })).toBe(asker);
    // Whatever the referee found.
    const referee = decimal('52.0');
    expect(bearer({ rule: 'asker-unless-moved', isMovedToAsker: false, referee })).toBe(asker);
  });

  test('split: both, whatever came out', () => {
    for (const isMovedToAsker of [true, false])
      expect(bearer({ rule: 'split', isMovedToAsker, referee: decimal('52.0') })).toBe('split');
  });

  test.each([
    ['52.9', 'other'],
    ['52.99', 'other'],
    ['53.0', 'split'],
    ['53.00', 'split'],
    ['53.01', 'asker'],
    ['60', 'asker'],
    ['40', 'other'],
  ])('further-from-referee: of 52.0 and 54.0, a referee’s %s costs the %s', (referee, expected) => {
    const sides = { asker, other, split: 'split' };
    for (const isMovedToAsker of [true, false])
      expect(bearer({ rule: 'further-from-referee', isMovedToAsker, referee: decimal(referee) })).toBe(
        sides[expected as keyof typeof sides],
      );
  });

  test('further-from-referee: both where no referee has tested', () => {
    expect(bearer({ rule: 'further-from-referee', isMovedToAsker: true })).toBe('split');
  });
});

describe('what each side bears', () => {
  test.each([
    [4500n, 'split', 2250n, 2250n],
    [4501n, 'split', 2251n, 2250n],
    [1n, 'split', 1n, 0n],
    [0n, 'split', 0n, 0n],
    [4501n, 'seller', 4501n, 0n],
    [4501n, 'buyer', 0n, 4501n],
  ] as const)('%s by %s: %s and %s', (total, bearer, seller, buyer) => {
    expect(shareCosts(total, bearer)).toEqual({ seller, buyer });
  });

  test('is all of it, and of a split never more than a cent apart', () => {
    const chance = chanceFrom(5);
    for (let count = 0; count < 500; count++) {
      const total = BigInt(chance.integer(0, 1_000_000));
      for (const bearer of ['seller', 'buyer', 'split'] as const) {
        const { seller, buyer } = shareCosts(total, bearer);
        expect(seller + buyer).toBe(total);
        if (bearer === 'split') expect([0n, 1n]).toContain(seller - buyer);
      }
    }
  });
});
