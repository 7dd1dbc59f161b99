/**
 * Where a lot stands at a moment, by what its seller said and by the offer that holds it.
 */
import { describe, expect, test } from 'vitest';
import { isOpen, lotStanding } from '../../../src/domain/lots/lot-standing.ts';

describe('a lot stands', () => {
  const times = { state: 'posted', openUntil: 2_000, heldUntil: null } as const;
  test.each([
    [{}, 'posted'],
    [{ openUntil: 1_000 }, 'over'],
    [{ heldUntil: 1_001 }, 'under-offer'],
    [{ heldUntil: 1_000 }, 'posted'],
    [{ heldUntil: 5_000, openUntil: 999 }, 'over'],
    [{ state: 'draft' as const, openUntil: null }, 'draft'],
    [{ state: 'sold' as const }, 'sold'],
    [{ state: 'withdrawn' as const }, 'withdrawn'],
  ])('%j: %s', (changes, standing) => {
    expect(lotStanding({ ...times, ...changes }, 1_000)).toBe(standing);
    expect(isOpen(lotStanding({ ...times, ...changes }, 1_000))).toBe(/posted|under/.test(standing));
  });
});
