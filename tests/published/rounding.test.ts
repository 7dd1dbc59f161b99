/**
 * Published rounding rules against the number module and, where an agreement rounds a test or a line, against the
 * settlement itself. Limits are compared exactly: the agreement in words says so.
 */
import { describe, expect, test } from 'vitest';
import { add, compare, decimal } from '../../src/domain/numbers/exact.ts';
import { printDecimal, printFixed, printUnits } from '../../src/domain/numbers/printing.ts';
import { type Rounding, roundTo, roundToUnits } from '../../src/domain/numbers/rounding.ts';
import { agreementInWords } from '../../src/domain/words/agreement-words.ts';
import type { Agreement, Term } from '../oracle/season.ts';
import { prepareProduct } from '../oracle/settle-by-product.ts';
import { smallSeason } from '../oracle/small-season.ts';
import { outcomeOf, pay } from './priced-load.ts';

const FLAT: Term[] = [{ term: 'flat', label: 'Price', rate: '80', per: 'short-ton', weight: 'as-fed' }];

function rounded(value: string, places: number, rounding: Rounding): string {
  return printUnits(roundToUnits(decimal(value), places, rounding), places);
}

/** NDF as the agreement uses it, where `tests` rounds it. */
function usedNdf(ndf: string, decimals: string, rounding: Rounding): string {
  const agreement = { rounding, tests: { ndf: { decimals } } };
  const { outcome } = outcomeOf({ price: FLAT, net: '2000', moisture: '40', figures: { ndf }, agreement });
  const figure = outcome.figures.ndf;
  return figure ? printFixed(figure, Number(decimals)) : 'none';
}

describe('half-even to 0.1 (ASTM E29 as quoted in a state highway manual, read)', () => {
  test.each([
    ['45.74', '45.7'],
    ['45.76', '45.8'],
    ['45.7500', '45.8'],
    ['45.4500', '45.4'],
    ['45.45001', '45.5'],
  ])('%s is %s', (value, expected) => {
    expect(rounded(value, 1, 'half-even')).toBe(expected);
    expect(usedNdf(value, '1', 'half-even')).toBe(expected);
  });
});

describe('half-up: a tie rises (Iowa DOT IM 202, read)', () => {
  test.each([
    ['45.7500', '45.8'],
    ['45.4500', '45.5'],
    ['45.4499', '45.4'],
  ])('%s is %s', (value, expected) => {
    expect(rounded(value, 1, 'half-up')).toBe(expected);
    expect(usedNdf(value, '1', 'half-up')).toBe(expected);
  });
});

describe('a limit of "max 4" and 4.25 (Iowa DOT IM 202, read): only decimals that the agreement names round it', () => {
  const rows: [max: string, decimals: string | undefined, status: string][] = [
    ['4', '0', 'settled'],
    ['4.0', '1', 'waiting'],
    ['4', undefined, 'waiting'],
    ['4.0', undefined, 'waiting'],
    ['4.25', undefined, 'settled'], // a value exactly on the limit passes (ASTM D3244 section 8.3, read)
  ];
  test.each(rows)('max %s with test decimals %s: %s', (above, decimals, status) => {
    const agreement: Partial<Agreement> = {
      acceptance: [{ on: 'ash', above }],
      ...(decimals === undefined ? {} : { tests: { ash: { decimals } } }),
    };
    const figures = { ash: '4.25' };
    const { outcome } = outcomeOf({ price: FLAT, net: '2000', moisture: '40', figures, agreement });
    expect(outcome.status).toBe(status);
    expect(outcome).toMatchObject(status === 'waiting' ? { reason: 'choice-needed' } : {});
  });

  test('the words say that limits are compared unrounded', () => {
    const season = smallSeason(FLAT, { agreement: { acceptance: [{ on: 'ash', above: '4' }] } });
    const sections = agreementInWords(prepareProduct(season).agreement);
    const text = sections.flatMap(({ paragraphs }) => paragraphs).join(' ');
    expect(text).toContain('figures are compared as they are used, not rounded to the limit');
    expect(text).toContain('The limits themselves are inside');
  });
});

test('round once: 1.347 is 1.35 and 1.3, never 1.4 by way of 1.35 (Ontario LS-100, read)', () => {
  expect(rounded('1.347', 2, 'half-up')).toBe('1.35');
  expect(rounded('1.347', 1, 'half-up')).toBe('1.3');
  expect(printFixed(roundTo(roundTo(decimal('1.347'), 2, 'half-up'), 1, 'half-up'), 1)).toBe('1.4');
  expect(usedNdf('1.347', '1', 'half-up')).toBe('1.3');
});

describe('decimals that binary floats get wrong (memory)', () => {
  const rate = (rate: string, rounding: Rounding = 'half-up') =>
    pay({
      price: [{ term: 'flat', label: 'Price', rate, per: 'load' }],
      net: '2000',
      moisture: '40',
      agreement: { rounding },
    }).total;

  test('1.005 is 1.01 half-up, 1.00 half-even', () => {
    expect([rounded('1.005', 2, 'half-up'), rate('1.005')]).toEqual(['1.01', '1.01']);
    expect([rounded('1.005', 2, 'half-even'), rate('1.005', 'half-even')]).toEqual(['1.00', '1.00']);
    expect([rounded('-1.005', 2, 'half-up'), rate('-1.005')]).toEqual(['-1.01', '-1.01']);
  });

  test('0.1 + 0.2 is 0.3', () => {
    expect(compare(add(decimal('0.1'), decimal('0.2')), decimal('0.3'))).toBe(0);
    expect(printDecimal(add(decimal('0.1'), decimal('0.2')))).toBe('0.3');
  });

  test('-0.004 prints 0.00, never -0.00', () => {
    expect([rounded('-0.004', 2, 'half-up'), rounded('-0.004', 2, 'half-even')]).toEqual(['0.00', '0.00']);
    expect([printFixed(decimal('-0.004'), 2), printDecimal(decimal('-0.004'), 2)]).toEqual(['0.00', '0']);
    expect(printFixed(decimal('-0'), 2)).toBe('0.00');
    expect(rate('-0.004')).toBe('0.00');
  });
});
