/**
 * The oracle held to figures worked by hand: reference rules, acceptance, waiting reasons and dates.
 */
import { describe, expect, test } from 'vitest';
import { localDate } from './local-date.ts';
import type { Agreement, Rule, Term } from './season.ts';
import { corn, onlyLoad, outcome, pricedBy, quotes, smallSeason } from './small-season.ts';

const closed = quotes;
const september = quotes.filter(([date]) => date < '2026-10');
const early = quotes.filter(([date]) => date < '2026-09-13');
const elects: Rule = { kind: 'seller-elects', from: '2026-09-11', to: '2026-09-20' };
const lateElects: Rule = { ...elects, default: 'window-end' };

describe('reference rules, for a delivery on 2026-09-13', () => {
  test.each<[string, Rule, Parameters<typeof pricedBy>[1], string]>([
    ['fixed', { kind: 'fixed', price: '4.250' }, {}, '4.25 from 4.25 on '],
    ['latest earlier quote', { kind: 'delivery-day' }, { dated: closed }, '4.1 from 4.1 on 2026-09-11'],
    ['two days old', { kind: 'delivery-day', maxAgeDays: '2' }, {}, '4.1 from 4.1 on 2026-09-11'],
    ['too old', { kind: 'delivery-day', maxAgeDays: '1' }, {}, 'no-quote'],
    ['open date', { kind: 'delivery-day' }, { dated: early }, 'no-quote'],
    ['no series', { kind: 'delivery-day' }, { dated: [] }, 'no-quote'],
    ['average', { kind: 'average', quotes: '2' }, {}, '4.05 from 4.05 on 2026-09-10 2026-09-11'],
    ['average of too few', { kind: 'average', quotes: '3' }, {}, 'no-quote'],
    ['average, newest too old', { kind: 'average', quotes: '2', maxAgeDays: '1' }, {}, 'no-quote'],
    ['month', { kind: 'month-average' }, {}, '4.15 from 4.15 on 2026-09-10 2026-09-11 2026-09-14'],
    ['month open', { kind: 'month-average' }, { dated: september }, 'month-open'],
    ['month without quotes', { kind: 'month-average' }, { dated: [['2026-10-01', '5']] }, 'no-quote'],
    ['month, no series', { kind: 'month-average' }, { dated: [] }, 'no-quote'],
    ['elected', elects, { elected: '2026-09-16' }, '4.35 from 4.35 on 2026-09-14'],
    ['elected, still open', elects, { elected: '2026-09-16', dated: september }, 'no-quote'],
    ['elected, too old', { ...elects, maxAgeDays: '1' }, { elected: '2026-09-16' }, 'no-quote'],
    ['not elected', elects, {}, 'not-elected'],
    ['not elected, no series', elects, { dated: [] }, 'no-quote'],
    ['window end', lateElects, {}, '4.35 from 4.35 on 2026-09-14'],
    ['window end still open', lateElects, { dated: september }, 'not-elected'],
  ])('%s', (_, rule, given, expected) => {
    expect(pricedBy(rule, given)).toBe(expected);
  });

  test('basis, then floor and ceiling', () => {
    const rule: Rule = { kind: 'fixed', price: '4.20' };
    expect(pricedBy(rule, { terms: { basis: '-0.15' } })).toBe('4.05 from 4.2 on ');
    expect(pricedBy(rule, { terms: { basis: '-0.15', floor: '4.10' } })).toBe('4.1 from 4.2 on ');
    expect(pricedBy(rule, { terms: { basis: '1.5', ceiling: '5.40' } })).toBe('5.4 from 4.2 on ');
  });

  test('a mean is rounded to four decimals by the agreement', () => {
    const rule: Rule = { kind: 'average', quotes: '2' };
    const dated: typeof quotes = [
      ['2026-09-12', '4.0002'],
      ['2026-09-13', '4.0003'],
    ];
    expect(pricedBy(rule, { dated }, 'half-up')).toContain('4.0003 from');
    expect(pricedBy(rule, { dated }, 'half-even')).toContain('4.0002 from');
  });
});

describe('statuses', () => {
  const hauling: Term = { term: 'flat', label: 'Hauling', rate: '1', per: 'load' };
  const fibre: Term = {
    term: 'constituent',
    label: 'Fibre',
    of: 'adf',
    at: { reference: 'corn', per: 'dry-matter' },
  };
  const narrow: Partial<Agreement> = { acceptance: [{ on: 'moisture', below: '32', above: '39' }] };
  const onItsEnd: Partial<Agreement> = { acceptance: [{ on: 'moisture', below: '40', above: '50' }] };
  const choice = (text: string) => ({ choices: [{ ticket: 'T1', choice: text }] });

  test.each<[string, ReturnType<typeof smallSeason>, string]>([
    ['outside', smallSeason([hauling], { agreement: narrow }), 'choice-needed'],
    [
      'outside, accepted',
      smallSeason([hauling], { agreement: narrow, others: choice('accept') }),
      '1 load 1.00',
    ],
    ['outside, refused', smallSeason([hauling], { agreement: narrow, others: choice('refuse') }), 'refused'],
    [
      'inside, refused',
      smallSeason([hauling], { agreement: onItsEnd, others: choice('refuse') }),
      'refusal-contested',
    ],
    ['no range, refused', smallSeason([hauling], { others: choice('refuse') }), 'refusal-contested'],
    ['on the end of a range', smallSeason([hauling], { agreement: onItsEnd }), '1 load 1.00'],
    ['no figure', smallSeason([fibre]), 'no-result'],
    ['no figure, outside', smallSeason([fibre], { agreement: narrow }), 'no-result'],
    ['no figure, refused', smallSeason([fibre], { agreement: narrow, others: choice('refuse') }), 'refused'],
    ['no figure, contested', smallSeason([fibre], { others: choice('refuse') }), 'no-result'],
    ['no test needed', smallSeason([hauling], { others: { samples: [] } }), '1 load 1.00'],
    [
      'acceptance needs it',
      smallSeason([hauling], { agreement: narrow, others: { samples: [] } }),
      'no-result',
    ],
  ])('%s', (_, season, expected) => {
    expect(outcome(season)).toEqual([expected]);
  });

  test('the first term that lacks something gives the reason', () => {
    const board = { ...corn, series: 'board', rule: { kind: 'month-average' } as const };
    const bid = { ...corn, series: 'bid', rule: { kind: 'delivery-day' } as const };
    const prices = [{ series: 'board', date: '2026-09-30', price: '4' }];
    const term = (reference: string): Term => ({ ...fibre, of: 'ndf', at: { reference, per: 'dry-matter' } });
    const wait = (price: Term[]) =>
      outcome(smallSeason(price, { agreement: { references: { board, bid } }, others: { prices } }));
    expect(wait([hauling, term('board'), term('bid')])).toEqual(['month-open']);
    expect(wait([hauling, term('bid'), term('board')])).toEqual(['no-quote']);
    const rows = [{ moisture: '50', poundsPerBushel: '80' }];
    const method = { kind: 'table', rows, between: 'linear' } as const;
    const bushels: Term = { term: 'equivalent-bushels', label: 'B', at: { reference: 'bid' }, method };
    expect(wait([bushels])).toEqual(['no-quote']);
  });

  test('a load without a named sample takes the day, where the plan is per day', () => {
    const season = (plan: 'per-day' | 'per-load') => {
      const given = smallSeason([hauling], {
        agreement: { sampling: { plan } },
        sample: { sample: '2026-09-13' },
      });
      for (const load of given.loads) delete load.sample;
      return onlyLoad(given).dryMatter;
    };
    expect(season('per-day')).toEqual({ pounds: '24000' });
    expect(season('per-load')).toBeUndefined();
  });
});

test('the delivery date is local, on either side of a clock change', () => {
  expect(localDate('2026-11-01T05:30:00Z', 'America/Boise')).toBe('2026-10-31');
  expect(localDate('2026-11-02T06:59:00Z', 'America/Boise')).toBe('2026-11-01');
  expect(localDate('2026-11-02T07:00:00Z', 'America/Boise')).toBe('2026-11-02');
  expect(localDate('2018-11-04T02:59+00:00', 'America/Sao_Paulo')).toBe('2018-11-03');
  expect(localDate('2018-11-04T03:00+00:00', 'America/Sao_Paulo')).toBe('2018-11-04');
  expect(localDate('2026-09-27T00:30:00+13:00', 'Pacific/Auckland')).toBe('2026-09-26');
});
