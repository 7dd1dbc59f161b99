/**
 * Whether the parts that a method tests are still there.
 */
import { describe, expect, test } from 'vitest';
import type { DecidingMethod } from '../../../src/domain/agreement/retest-rules.ts';
import { type KeptPart, neededParts } from '../../../src/domain/retests/kept-parts.ts';
import { day, reported } from './entered-figures.ts';

const TODAY = day('2026-10-20');
const part = (of: string, seal: string, more: Partial<KeptPart> = {}): KeptPart => ({
  ...{ part: of, seal, isSealIntact: true, keptUntil: null, ...more },
});
const until = (date: string) => ({ keptUntil: day(date) });

/** "referee A kept, first": each part with its seal and state. */
const told = (method: DecidingMethod, parts: readonly KeptPart[]) =>
  neededParts(method, { parts, first: reported('laboratory', '54.0'), today: TODAY }).map(
    ({ part, seal, is, isFirst }) => `${part} ${seal ?? 'none'} ${is}${isFirst ? ', first' : ''}`,
  );

const REFEREE: DecidingMethod = { method: 'referee-stands', tolerance: '1' };
const ALL = ['laboratory', 'seller', 'buyer', 'referee'].map((of, index) => part(of, `S${index + 1}`));

describe('each method', () => {
  test.each([
    [REFEREE, ['referee S4 kept, first']],
    [{ method: 'closest-two' }, ['laboratory S1 kept, first', 'referee S4 kept, first']],
    [{ method: 'median' }, ['laboratory S1 kept, first', 'referee S4 kept, first']],
    [{ method: 'iso-5725', repeatability: '1', test: 'cheap' }, ['laboratory S1 kept, first']],
    // The other laboratory comes in only when the first one's results are in.
    [
      { method: 'iso-5725', repeatability: '1', reproducibility: '2', test: 'dear' },
      ['laboratory S1 kept, first', 'referee S4 kept'],
    ],
    [
      { method: 'astm-d3244', reproducibility: '2', tie: 'mean' },
      ['seller S2 kept, first', 'buyer S3 kept, first', 'referee S4 kept'],
    ],
    [{ method: 'second-scale' }, []],
  ] as const)('%o tests %o', (method, expected) => {
    expect(told(method, ALL)).toEqual(expected);
  });
});

describe('a part', () => {
  test.each([
    ['kept without an end', [part('referee', 'A')], 'A kept'],
    ['kept until today', [part('referee', 'A', until('2026-10-20'))], 'A kept'],
    ['kept until yesterday', [part('referee', 'A', until('2026-10-19'))], 'A expired'],
    ['with a broken seal', [part('referee', 'A', { isSealIntact: false })], 'A broken'],
    ['both', [part('referee', 'A', { isSealIntact: false, ...until('2026-10-19') })], 'A broken'],
    ['not there', [], 'none missing'],
    ['of somebody else', [part('seller', 'A'), part('buyer', 'B')], 'none missing'],
  ])('%s', (_, parts, expected) => {
    expect(told(REFEREE, parts)).toEqual([`referee ${expected}, first`]);
  });

  test('of several, the one that is kept best counts, in whatever order they were sealed', () => {
    const broken = part('referee', 'A', { isSealIntact: false });
    const expired = part('referee', 'B', until('2026-10-01'));
    const kept = part('referee', 'C', until('2026-12-01'));
    for (const parts of [
      [broken, expired, kept],
      [kept, expired, broken],
    ])
      expect(told(REFEREE, parts)).toEqual(['referee C kept, first']);
    expect(told(REFEREE, [broken, expired])).toEqual(['referee B expired, first']);
    const [needed] = neededParts(REFEREE, {
      parts: [broken, kept],
      first: reported('laboratory', '54.0'),
      today: TODAY,
    });
    expect(needed?.keptUntil).toBe('2026-12-01');
  });
});
