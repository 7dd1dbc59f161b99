/**
 * A doubt beside the scatter of its test. The published deviations are those of published-checks.md, section 5 (all read);
 * limits are 2.8 of them, as ISO 5725-6 has R (read).
 */
import { describe, expect, test } from 'vitest';
import type { Tested } from '../../../src/domain/agreement/measures.ts';
import type { DecidingMethod } from '../../../src/domain/agreement/retest-rules.ts';
import { decimal } from '../../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../../src/domain/numbers/printing.ts';
import { agreedScatter, doubtOf } from '../../../src/domain/retests/doubt.ts';

const MEDIAN: DecidingMethod = { method: 'median' };
const ISO: DecidingMethod = { method: 'iso-5725', repeatability: '1.4', test: 'cheap' };

const doubt = (method: DecidingMethod, measure: Tested, first: string, claimed: string) =>
  doubtOf(method, { measure, first: decimal(first), claimed: decimal(claimed) });

describe('the agreed scatter', () => {
  test.each([
    [{ method: 'referee-stands', tolerance: '1.0' }, '1 tolerance'],
    [{ method: 'astm-d3244', reproducibility: '2.0', tie: 'mean' }, '2 reproducibility'],
    [{ ...ISO, reproducibility: '2.8' }, '2.8 reproducibility'],
    [ISO, '1.4 repeatability'],
    [{ method: 'closest-two' }, undefined],
    [MEDIAN, undefined],
    [{ method: 'second-scale', toleranceDivisions: '3' }, undefined],
  ] as const)('of %o: %s', (method, expected) => {
    const agreed = agreedScatter(method);
    expect(agreed && `${printDecimal(agreed.limit)} ${agreed.is}`).toBe(expected);
  });

  test.each([
    ['54.0', '52.0', 'within'],
    ['54.0', '56.0', 'within'],
    ['54.0', '51.99', 'beyond'],
    ['54.0', '56.01', 'beyond'],
  ])('goes before the published one: %s against %s by 2.0 is %s', (first, claimed, is) => {
    const astm: DecidingMethod = { method: 'astm-d3244', reproducibility: '2.0', tie: 'mean' };
    // Published for starch: 4.48 and more.
    const { is: found, published } = doubt(astm, 'starch', first, claimed);
    expect(found).toBe(is);
    expect(printDecimal(published?.low ?? decimal('0'))).toBe('4.48');
  });
});

describe('the published scatter', () => {
  test.each([
    // 2.8 × 0.44 % and 0.77 % of 58 (Karl Fischer, J AOAC 85:318).
    ['dry-matter', '58', '57.28544', '57.28543', '56.74952', '56.74951', 'J AOAC Int. 85:318'],
    // 2.8 × 1.6 and 2.2, in one laboratory (AOAC 996.11 extended).
    ['starch', '54', '49.52', '49.51', '47.84', '47.83', 'AOAC 996.11'],
    // 2.8 × 0.37 and 2.24 (AOAC 2002.04, Mertens 2002).
    ['ndf', '30', '28.964', '28.963', '23.728', '23.727', 'Mertens 2002'],
    // 2.8 × 0.56 and 2.44 (AOAC 973.18, Möller 2009).
    ['adf', '20', '18.432', '18.431', '13.168', '13.167', 'Möller 2009'],
  ] as const)('of %s at %s: within to %s, between from %s to %s, beyond from %s (%s)', (...row) => {
    const [measure, first, within, between, stillBetween, beyond, source] = row;
    const found = [within, between, stillBetween, beyond].map((claimed) =>
      doubt(MEDIAN, measure, first, claimed),
    );
    expect(found.map(({ is }) => is)).toEqual(['within', 'between', 'between', 'beyond']);
    expect(found[0]?.published?.source).toContain(source);
    // As far above as below.
    const above = String(2 * Number(first) - Number(within));
    expect(doubt(MEDIAN, measure, first, above)).toMatchObject({ is: 'within', agreed: undefined });
  });

  test('of crude protein is one figure: 2.8 × 0.52 (AOAC 990.03)', () => {
    expect(doubt(MEDIAN, 'crude-protein', '9', '7.544').is).toBe('within');
    expect(doubt(MEDIAN, 'crude-protein', '9', '7.543').is).toBe('beyond');
    expect(doubt(MEDIAN, 'crude-protein', '9', '7.543').published?.source).toContain('AOAC 990.03');
  });

  test.each([
    'crude-fat',
    'ash',
    'ph',
    'ammonia-nitrogen',
    'particle-size',
    'aflatoxin',
    'vomitoxin',
  ] as const)('of %s is known from nowhere, so that nothing is said of the doubt', (measure) => {
    expect(doubt(MEDIAN, measure, '4', '3')).toMatchObject({ is: 'unknown', published: undefined });
    expect(doubt(ISO, measure, '4', '3')).toMatchObject({ is: 'within' });
    expect(doubt(ISO, measure, '4', '2')).toMatchObject({ is: 'beyond' });
  });
});
