/**
 * The oracle held to figures worked by hand: the published example, each term with each of its options,
 * and the order of statuses and reasons.
 */
import { describe, expect, test } from 'vitest';
import { parse } from './fraction.ts';
import { settleByOracle } from './oracle.ts';
import { printedRate } from './printed-rate.ts';
import type { Agreement, Extent, LimitTerm, ScheduleTerm, Step, Term } from './season.ts';
import { corn, onlyLoad, outcome, smallSeason } from './small-season.ts';
import { workedExample } from './worked-example.ts';

test('the worked example, to the last digit', () => {
  const settlements = settleByOracle(workedExample);
  const [t1, t2] = settlements.loads;
  expect(settlements).toMatchObject({ format: 'huskledger-settlements/1', agreement: 'A-26-014' });
  expect(t1).toMatchObject({
    ticket: 'T1',
    status: 'settled',
    deliveredOn: '2026-09-14',
    net: { pounds: '47120' },
    dryMatter: { pounds: '27895.04' },
    references: { corn: { price: '4.05', quote: '4.2', quotedOn: ['2026-09-14'] } },
    total: '1986.85',
  });
  const lines = t1?.status === 'settled' ? t1.lines : [];
  expect(
    lines.map((line) => [line.quantity, line.unit, printedRate(line, 2, 'half-up'), line.amount].join(' ')),
  ).toEqual([
    '21215.945915 lb 0.0855875 1815.82',
    '6679.094085 lb 0.0513525 342.99',
    '13.94752 short-ton -5.15 -71.83',
    '23.56 short-ton -4.25 -100.13',
  ]);
  expect(t2).toEqual({
    ticket: 'T2',
    status: 'waiting',
    reason: 'no-result',
    deliveredOn: '2026-09-15',
    net: { pounds: '46820' },
  });
  expect(settlements.total).toBe('1986.85');
});

const at = { reference: 'corn', per: 'dry-matter' } as const;
const perStarch = { reference: 'corn', per: 'starch' } as const;
const label = 'line';

function bushels(
  method: Extract<Term, { term: 'equivalent-bushels' }>['method'],
  bushelDecimals?: string,
): Term {
  const places = bushelDecimals === undefined ? {} : { bushelDecimals };
  return { term: 'equivalent-bushels', label, at: { reference: 'corn' }, method, ...places };
}
function table(rows: [string, string][], between: 'linear' | 'next-wetter', drier = false) {
  const named = rows.map(([moisture, poundsPerBushel]) => ({ moisture, poundsPerBushel }));
  return { kind: 'table' as const, rows: named, between, ...(drier ? { drier: 'first-row' as const } : {}) };
}
function flat(rate: string, extent: Extent): Term {
  return { term: 'flat', label, rate, ...extent };
}
function ndf(count: ScheduleTerm['count'], above: Step[], to = '24.5'): Term {
  const range = { on: 'ndf', neutral: { from: '0', to } } as const;
  return {
    term: 'schedule',
    label,
    ...range,
    above,
    count,
    unit: 'money',
    per: 'short-ton',
    weight: 'dry-matter',
  };
}
function limit(ends: Pick<LimitTerm, 'floor' | 'ceiling'>): Term {
  return { term: 'limit', label, ...ends, per: 'short-ton', weight: 'as-fed' };
}
const steps: Step[] = [{ points: '4', perPoint: '-0.80' }, { perPoint: '-1.50' }];
const capped: Step[] = [
  { points: '4', perPoint: '-0.80' },
  { points: '1', perPoint: '-1.50' },
];
const below: Term = {
  term: 'schedule',
  label,
  on: 'starch',
  neutral: { from: '58', to: '70' },
  below: [{ perPoint: '-1' }],
  count: 'exact',
  unit: 'money',
  per: 'load',
};
const percent: Term = {
  term: 'schedule',
  label,
  on: 'ndf',
  neutral: { from: '0', to: '24.5' },
  above: steps,
  count: 'exact',
  unit: 'percent',
};
const narrow: [string, string][] = [
  ['36', '60'],
  ['42', '72'],
];
const wet: [string, string][] = [
  ['42', '72'],
  ['44', '75'],
];

describe('terms, each on the load in round figures', () => {
  test.each<[string, Term[], string]>([
    ['all dry matter', [{ term: 'constituent', label, of: 'dry-matter', at }], '24000 lb 2400.00'],
    ['starch per starch', [{ term: 'constituent', label, of: 'starch', at: perStarch }], '13440 lb 1920.00'],
    [
      'grain at 60 %',
      [{ term: 'constituent', label, of: 'grain-equivalent', at, sharePercent: '60' }],
      '19200 lb 1152.00',
    ],
    ['after parts', [{ term: 'remainder', label, after: ['starch', 'ndf'], at }], '3360 lb 336.00'],
    ['after grain', [{ term: 'remainder', label, after: ['grain-equivalent'], at }], '4800 lb 480.00'],
    ['dry bushels', [bushels({ kind: 'dry-matter' })], '600 bushel 2400.00'],
    ['shrink', [bushels({ kind: 'shrink', percentPerPoint: '1.5' })], '560 bushel 2240.00'],
    ['shrunk to nothing', [bushels({ kind: 'shrink', percentPerPoint: '6' })], '0 bushel 0.00'],
    ['table, linear', [bushels(table(narrow, 'linear'))], '588.235294 bushel 2352.94'],
    ['table, next wetter', [bushels(table(narrow, 'next-wetter'))], '555.555556 bushel 2222.22'],
    ['table, on a row', [bushels(table([['40', '64'], ...wet], 'linear'))], '625 bushel 2500.00'],
    ['bushels rounded first', [bushels(table(narrow, 'linear'), '1')], '588.2 bushel 2352.80'],
    ['drier than the table', [bushels(table(wet, 'linear'))], 'outside-table'],
    ['drier, first row', [bushels(table(wet, 'linear', true))], '555.555556 bushel 2222.22'],
    ['wetter than the table', [bushels(table([['30', '60']], 'linear', true))], 'outside-table'],
    ['flat, short tons', [flat('-4.25', { per: 'short-ton', weight: 'as-fed' })], '20 short-ton -85.00'],
    ['flat, dry cwt', [flat('0.5', { per: 'cwt', weight: 'dry-matter' })], '240 cwt 120.00'],
    ['flat, tonnes', [flat('10', { per: 'tonne', weight: 'as-fed' })], '18.143695 tonne 181.44'],
    ['flat, kilograms', [flat('0.01', { per: 'kg', weight: 'as-fed' })], '18143.6948 kg 181.44'],
    ['flat, pounds', [flat('0.001', { per: 'lb', weight: 'as-fed' })], '40000 lb 40.00'],
    ['flat, mile', [flat('1.25', { per: 'mile' })], '10 mile 12.50'],
    ['flat, km', [flat('1', { per: 'km' })], '16.09344 km 16.09'],
    ['exact points', [ndf('exact', steps)], '12 short-ton -65.40'],
    ['completed points', [ndf('completed', steps)], '12 short-ton -56.40'],
    ['started points', [ndf('started', steps)], '12 short-ton -74.40'],
    ['a closed last step', [ndf('exact', capped)], '12 short-ton -56.40'],
    ['on the end of neutral', [ndf('started', steps, '30')], '12 short-ton 0.00'],
    ['on the end of a step', [ndf('exact', steps, '26')], '12 short-ton -38.40'],
    ['below', [below], '1 load -2.00'],
    ['percent of what is before', [flat('1000', { per: 'load' }), percent], '1000 USD -54.50'],
    ['percent of a debt', [flat('-1000', { per: 'load' }), percent], '-1000 USD 54.50'],
    ['limit from below', [flat('700', { per: 'load' }), limit({ floor: '40' })], '20 short-ton 100.00'],
    ['limit from above', [flat('700', { per: 'load' }), limit({ ceiling: '30' })], '20 short-ton -100.00'],
    [
      'on the limit',
      [flat('700', { per: 'load' }), limit({ floor: '35', ceiling: '35' })],
      '20 short-ton 0.00',
    ],
  ])('%s', (_, price, expected) => {
    expect(outcome(smallSeason(price, { load: { miles: '10' } })).at(-1)).toBe(expected);
  });

  test('grain-equivalent is at most the whole', () => {
    const references = { corn: { ...corn, starchPercentOfDryMatter: '50' } };
    const grain: Term = { term: 'constituent', label, of: 'grain-equivalent', at };
    const rest: Term = { term: 'remainder', label, after: ['grain-equivalent'], at };
    const season = smallSeason([grain, rest], { agreement: { references } });
    expect(outcome(season)).toEqual(['24000 lb 2400.00', '0 lb 0.00']);
  });

  test('distances in kilometres, weights in tonnes', () => {
    const price = [flat('1.25', { per: 'mile' }), flat('1', { per: 'tonne', weight: 'as-fed' })];
    const load = { km: '16.09344', gross: '38.75', tare: '14.25', unit: 'tonne' };
    const season = smallSeason(price, { load });
    expect(outcome(season)).toEqual(['10 mile 12.50', '24.5 tonne 24.50']);
    expect(onlyLoad(season).net.pounds).toBe('54013.254235');
  });
});

describe('rounding', () => {
  test.each<[string, Partial<Agreement>, string]>([
    ['0.125', {}, '0.13'],
    ['-0.125', { rounding: 'half-up' }, '-0.13'],
    ['0.125', { rounding: 'half-even' }, '0.12'],
    ['-0.135', { rounding: 'half-even' }, '-0.14'],
    ['-0.004', {}, '0.00'],
    ['2.5', { currency: 'JPY', rounding: 'half-even' }, '2'],
    ['-2.5', { currency: 'JPY' }, '-3'],
    ['1.0005', { currency: 'KWD' }, '1.001'],
  ])('%s %j', (rate, agreement, amount) => {
    const load = onlyLoad(smallSeason([flat(rate, { per: 'load' })], { agreement }));
    expect(load).toMatchObject({ status: 'settled', total: amount });
  });

  test('tests are rounded after conversion, before use', () => {
    const sample = { basis: 'as-fed', dry_matter: '60.00', ndf: '18.02' };
    const term = ndf('started', steps, '30');
    expect(outcome(smallSeason([term], { sample }))).toEqual(['12 short-ton -9.60']);
    const agreement: Partial<Agreement> = { tests: { ndf: { decimals: '1' } } };
    expect(outcome(smallSeason([term], { sample, agreement }))).toEqual(['12 short-ton 0.00']);
  });

  test('dry matter converts as reported and weighs as rounded', () => {
    const sample = { basis: 'as-fed', dry_matter: '59.5', ndf: '17.85' };
    const agreement: Partial<Agreement> = { tests: { 'dry-matter': { decimals: '0' } } };
    const season = smallSeason([{ term: 'constituent', label, of: 'ndf', at }], { sample, agreement });
    expect(outcome(season)).toEqual(['7200 lb 720.00']);
  });

  test('numbers are digits and nothing else', () => {
    for (const text of ['1e3', '.5', '5.', '+1', ' 1', '0x1', '']) expect(() => parse(text)).toThrow();
  });
});
