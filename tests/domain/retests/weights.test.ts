/**
 * Two weighings of one load, held against what the scales may be off. The tolerances are NIST Handbook 44's for scales in use
 * (scales code, table 6), from memory, as tests/published/scales.test.ts has them: by 20 lb divisions of class III L, 160 lb
 * at 80,000 lb and 80 lb at 40,000.
 */
import { describe, expect, test } from 'vitest';
import { compare, decimal } from '../../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../../src/domain/numbers/printing.ts';
import type { ScaleUnit } from '../../../src/domain/quantities/units.ts';
import {
  netPounds,
  ruleOnWeight,
  type ScaleMarks,
  tolerancePounds,
  type WeighedTwice,
} from '../../../src/domain/retests/weights.ts';
import type { AccuracyClass } from '../../../src/domain/scales/divisions.ts';

const scale = (
  division: string,
  unit: ScaleUnit = 'lb',
  accuracyClass: AccuracyClass = 'III L',
): ScaleMarks => ({
  accuracyClass,
  division: decimal(division),
  unit,
});
const TRUCK = scale('20');
const NONE = { grossScale: undefined, tareScale: undefined };

const weighed = (
  gross: string,
  tare: string,
  { unit = 'lb', ...more }: Partial<WeighedTwice> & { readonly on?: ScaleMarks | undefined } = {},
): WeighedTwice => {
  const on = 'on' in more ? more.on : TRUCK;
  return { gross: decimal(gross), tare: decimal(tare), unit, grossScale: on, tareScale: on, ...more };
};

const METHOD = { method: 'second-scale' } as const;
const ruled = (first: WeighedTwice, second: WeighedTwice, toleranceDivisions?: string) => {
  const method = toleranceDivisions === undefined ? METHOD : { ...METHOD, toleranceDivisions };
  const { apart, allowed, because } = ruleOnWeight(method, { first, second });
  return `${printDecimal(apart)} of ${printDecimal(allowed)} lb: ${because}`;
};

describe('by the scales’ own tolerance', () => {
  test.each([
    // Gross up to 80,000 lb may be off by 160, a tare of 40,000 by 80, on each scale: 480 in all.
    ['79480', '480 of 480 lb: first-stands'],
    ['79500', '500 of 480 lb: second-moved-it'],
    ['79000', '0 of 480 lb: first-stands'],
    ['78520', '480 of 480 lb: first-stands'],
    ['78500', '500 of 480 lb: second-moved-it'],
  ])('gross 79,000 and %s lb over a tare of 40,000: %s', (gross, expected) => {
    expect(ruled(weighed('79000', '40000'), weighed(gross, '40000'))).toBe(expected);
  });

  test('a heavier weighing may be off by more', () => {
    // 80,020 lb is a division above 4,000: nine divisions in place of eight.
    expect(ruled(weighed('80020', '40000'), weighed('80000', '40000'))).toBe('20 of 500 lb: first-stands');
    // 10,000 lb is 500 divisions and may be off by one; 10,020 by two.
    expect(ruled(weighed('80000', '10000'), weighed('80000', '10000'))).toBe('0 of 360 lb: first-stands');
    expect(ruled(weighed('80000', '10020'), weighed('80000', '10000'))).toBe('20 of 380 lb: first-stands');
  });

  test('nets are held together, not gross to gross', () => {
    expect(ruled(weighed('80000', '40000'), weighed('78000', '38000'))).toBe('0 of 480 lb: first-stands');
    expect(ruled(weighed('80000', '40000'), weighed('80000', '39000'))).toBe(
      '1000 of 480 lb: second-moved-it',
    );
  });

  test('a ticket without a scale is held to the second scale’s tolerance', () => {
    const second = weighed('80480', '40000');
    // 80,480 lb may be off by 180.
    expect(ruled(weighed('80000', '40000', { on: undefined }), second)).toBe('480 of 500 lb: first-stands');
    expect(ruled(weighed('80000', '40000'), second)).toBe('480 of 500 lb: first-stands');
    // And its unnamed tare alone, where the gross names a scale of 50 lb: 1,600 divisions, four of them.
    const half = weighed('80000', '40000', { ...NONE, grossScale: scale('50') });
    expect(ruled(half, second)).toBe('480 of 540 lb: first-stands');
  });

  test('in kilograms', () => {
    const tonnes = scale('10', 'kg');
    const kg = (gross: string) => weighed(gross, '14000', { unit: 'kg', on: tonnes });
    // 36,000 kg by 10 kg is 3,600 divisions: 80 kg; 14,000 kg is 1,400: 30 kg. Both twice: 220 kg.
    expect(
      compare(tolerancePounds(kg('36000'), kg('36000')), netPounds(weighed('110', '0', { unit: 'kg' }))),
    ).toBe(0);
    const { apart, allowed, because } = ruleOnWeight(METHOD, { first: kg('36000'), second: kg('36220') });
    // To the pound they are no round figures, and still equal: a pound is 0.45359237 kg (agreement of 1959, from memory).
    expect(compare(apart, allowed)).toBe(0);
    expect(because).toBe('first-stands');
    expect(printDecimal(allowed)).toBe('485.016977');
    expect(ruleOnWeight(METHOD, { first: kg('36000'), second: kg('36230') }).because).toBe('second-moved-it');
  });

  test('a ticket in tonnes by a scale in kilograms', () => {
    const tonnes = scale('10', 'kg');
    const first = weighed('36', '14', { unit: 'tonne', on: tonnes });
    const second = weighed('36220', '14000', { unit: 'kg', on: tonnes });
    expect(ruleOnWeight(METHOD, { first, second }).because).toBe('first-stands');
    const more = weighed('36230', '14000', { unit: 'kg', on: tonnes });
    expect(ruleOnWeight(METHOD, { first, second: more }).because).toBe('second-moved-it');
  });

  test('a scale of class III, or one that is not marked, has that class’s steps', () => {
    // Class III: up to 4,000 divisions may be off by 3, up to 2,000 by 2. Not marked, held to class IIII: more than 400 by
    // 5, up to 400 by 3.
    const third = weighed('80000', '40000', { on: scale('20', 'lb', 'III') });
    expect(ruled(third, third)).toBe('0 of 200 lb: first-stands');
    const fourth = weighed('80000', '40000', { on: scale('100', 'lb', 'not marked') });
    expect(ruled(fourth, fourth)).toBe('0 of 1600 lb: first-stands');
  });
});

describe('by divisions that were agreed on', () => {
  test.each([
    ['3', '80060', '60 of 60 lb: first-stands'],
    ['3', '80080', '80 of 60 lb: second-moved-it'],
    ['0', '80000', '0 of 0 lb: first-stands'],
    ['0', '80020', '20 of 0 lb: second-moved-it'],
    ['1.5', '80040', '40 of 30 lb: second-moved-it'],
  ])('%s of them, gross 80,000 and %s: %s', (divisions, gross, expected) => {
    expect(ruled(weighed('80000', '40000'), weighed(gross, '40000'), divisions)).toBe(expected);
  });

  test('they are those of the coarser scale, whichever it is', () => {
    const coarse = { on: scale('50') };
    expect(ruled(weighed('80000', '40000'), weighed('80150', '40000', coarse), '3')).toBe(
      '150 of 150 lb: first-stands',
    );
    expect(ruled(weighed('80000', '40000', coarse), weighed('80160', '40000'), '3')).toBe(
      '160 of 150 lb: second-moved-it',
    );
    // Of the tare’s scale alone, too; and 10 kg are coarser than 20 lb.
    const tare = weighed('80000', '40000', { grossScale: TRUCK, tareScale: scale('10', 'kg') });
    expect(ruled(tare, weighed('80060', '40000'), '3')).toBe('60 of 66.138679 lb: first-stands');
  });

  test('a ticket without a scale leaves the second scale’s', () => {
    const first = weighed('80000', '40000', { on: undefined });
    expect(ruled(first, weighed('80060', '40000'), '3')).toBe('60 of 60 lb: first-stands');
  });
});
