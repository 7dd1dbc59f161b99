/**
 * Wet pounds that make one bushel of No. 2 corn (15.5 %). For shelled corn the printed table follows from the water
 * shrink identity; for ear corn it is empirical, since kernel and cob dry apart, and is looked up, never computed.
 */
import { describe, expect, test } from 'vitest';
import { decimal, divide, multiply } from '../../src/domain/numbers/exact.ts';
import { printFixed } from '../../src/domain/numbers/printing.ts';
import type { BushelMethod } from '../oracle/season.ts';
import { bushels, onlyQuantity, outcomeOf, type PublishedLoad, pay, reference } from './priced-load.ts';

// Both tables: "Useful Tables", AGF-502, Lindsey & Zoller, Ohio State Univ. Extension 2018, read.
const SHELLED: readonly [moisture: string, pounds: string][] = [
  ['10', '52.58'],
  ['12', '53.77'],
  ['13', '54.39'],
  ['14', '55.02'],
  ['15', '55.67'],
  ['16', '56.33'],
  ['24', '62.26'],
  ['25', '63.09'],
  ['26', '63.95'],
  ['27', '64.82'],
  ['28', '65.72'],
];
const EAR: readonly [moisture: string, pounds: string][] = [
  ['15.5', '68.40'],
  ['24', '79.76'],
  ['24.5', '80.50'],
  ['25', '81.25'],
  ['25.5', '82.03'],
  ['26', '82.82'],
  ['27', '84.19'],
  ['28', '85.62'],
  ['28.5', '86.32'],
];

function table(
  rows: readonly [string, string][],
  between: 'linear' | 'next-wetter',
  drier?: 'first-row',
): BushelMethod {
  const entries = rows.map(([moisture, poundsPerBushel]) => ({ moisture, poundsPerBushel }));
  return { kind: 'table', rows: entries, between, ...(drier ? { drier } : {}) };
}

function load(method: BushelMethod, moisture: string, net = '2000'): PublishedLoad {
  const corn = reference('4.50', { pounds: '56', moisture: '15.5' });
  return { references: { corn }, price: [bushels(method)], net, moisture };
}

function poundsPerBushel(method: BushelMethod, moisture: string): string {
  return printFixed(divide(decimal('2000'), onlyQuantity(load(method, moisture))), 2);
}

describe('shelled corn, 56 × 84.5 ÷ (100 − M)', () => {
  test.each(SHELLED)('at %s percent: %s lb', (moisture, pounds) => {
    expect(poundsPerBushel({ kind: 'dry-matter' }, moisture)).toBe(pounds);
    expect(poundsPerBushel(table(SHELLED, 'linear'), moisture)).toBe(pounds);
  });

  test('the printed row is itself rounded, so 56,000 lb at 25 % differ by 21 cents (computed)', () => {
    expect(pay(load({ kind: 'dry-matter' }, '25', '56000')).total).toBe('3994.08');
    expect(pay(load(table(SHELLED, 'linear'), '25', '56000')).total).toBe('3994.29');
  });
});

describe('ear corn, looked up', () => {
  test.each(EAR)('at %s percent: %s lb, read either way', (moisture, pounds) => {
    expect(poundsPerBushel(table(EAR, 'linear'), moisture)).toBe(pounds);
    expect(poundsPerBushel(table(EAR, 'next-wetter'), moisture)).toBe(pounds);
  });

  test('2,000 lb at 25 % are 24.6154 bushels', () => {
    expect(printFixed(onlyQuantity(load(table(EAR, 'linear'), '25')), 4)).toBe('24.6154');
  });

  const between: [moisture: string, linear: string, nextWetter: string][] = [
    ['24.25', '80.13', '80.50'],
    ['26.5', '83.51', '84.19'],
    ['27.1', '84.33', '85.62'],
  ];
  test.each(between)(
    'between rows, at %s percent (computed): linear %s, next wetter %s',
    (moisture, linear, next) => {
      expect(poundsPerBushel(table(EAR, 'linear'), moisture)).toBe(linear);
      expect(poundsPerBushel(table(EAR, 'next-wetter'), moisture)).toBe(next);
    },
  );

  test('the printed half-point rows lie within a hundredth of the line between their neighbours', () => {
    const whole = EAR.filter(([moisture]) => !moisture.endsWith('.5'));
    expect(poundsPerBushel(table(whole, 'linear'), '24.5')).toBe('80.51');
    expect(poundsPerBushel(table(whole, 'linear'), '25.5')).toBe('82.04');
  });

  test('the identity does not give this table: 68.40 × 84.5 ÷ 75 is 77.06, not 81.25 (computed)', () => {
    const byWater = divide(multiply(decimal('68.40'), decimal('84.5')), decimal('75'));
    expect(printFixed(byWater, 2)).toBe('77.06');
    expect(poundsPerBushel(table(EAR, 'linear'), '25')).toBe('81.25');
  });

  test.each([
    ['28.6', undefined],
    ['28.6', 'first-row'],
    ['15.4', undefined],
  ] as const)('at %s percent with drier %s the load waits: no figure is guessed', (moisture, drier) => {
    const { outcome } = outcomeOf(load(table(EAR, 'linear', drier), moisture));
    expect(outcome).toMatchObject({ status: 'waiting', reason: 'outside-table' });
  });

  test('drier than the table, the first row counts where the agreement says so', () => {
    expect(poundsPerBushel(table(EAR, 'linear', 'first-row'), '14')).toBe('68.40');
  });
});
