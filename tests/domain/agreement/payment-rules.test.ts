/**
 * Terms of payment, advances and deductions that are sound, and each fault named at its own place.
 */
import { describe, expect, test } from 'vitest';
import { checkConditions, INVOICED_BY } from '../../../src/domain/agreement/conditions.ts';
import { printPath } from '../../../src/domain/agreement/problem.ts';
import { DAY_COUNTS } from '../../../src/domain/money/day-count.ts';

type Part = Readonly<Record<string, unknown>>;

function problemsOf(conditions: Part): string[] {
  return checkConditions(conditions).map(({ path, message }) => `${printPath(path)} ${message}`);
}

const INTEREST = { percentPerYear: '6.5', dayCount: 'actual/360' };
const ADVANCE = { sharePercent: '80', rate: '62.50', per: 'short-ton' };
const BUSHEL = {
  label: 'Checkoff',
  rate: '0.01',
  per: 'bushel',
  weight: 'dry-matter',
  poundsPerBushel: '56',
};

const payment = (part: Part): Part => ({ payment: part });
const advance = (part: Part): Part => ({ advance: { ...ADVANCE, ...part } });
const deduction = (part: Part): Part => ({ deductions: [{ label: 'Fee', ...part }] });
const bushel = (part: Part): Part => ({ deductions: [{ ...BUSHEL, ...part }] });

describe('sound', () => {
  test.each<[string, Part]>([
    ['days from the delivery', payment({ netDays: '0', from: 'delivery' })],
    ['days from the settlement', payment({ netDays: '999', from: 'settlement' })],
    ['the last day of a month', payment({ dayOfMonth: '31' })],
    ['a deferral', payment({ deferredTo: '2027-01-05' })],
    ['no due date', payment({ issuedBy: 'buyer' })],
    ...INVOICED_BY.map((invoices): [string, Part] => [`an invoice a ${invoices}`, payment({ invoices })]),
    ...DAY_COUNTS.map((dayCount): [string, Part] => [
      `interest by ${dayCount}`,
      payment({ interest: { ...INTEREST, dayCount } }),
    ]),
    ['no interest, in so many words', payment({ interest: { ...INTEREST, percentPerYear: '0' } })],
    ['a discount on the day', payment({ discount: { percent: '100', withinDays: '0' } })],
    ['a fee', payment({ returnedPaymentFee: '0.01' })],
    ['an advance of all', advance({ sharePercent: '100', byNewestQuote: false })],
    ['an advance a load', advance({ per: 'load' })],
    ['a deduction a load', deduction({ rate: '12', per: 'load', payee: 'Cinder Plain Corn Board' })],
    ['a deduction of all', deduction({ rate: '100', per: 'percent' })],
    ['a deduction a ton of more than a hundred', deduction({ rate: '101', per: 'tonne', weight: 'as-fed' })],
    ['a deduction a bushel', bushel({})],
  ])('%s', (_, conditions) => {
    expect(problemsOf(conditions)).toEqual([]);
  });
});

describe('faults', () => {
  test.each<[what: string, conditions: Part, path: string, message: RegExp]>([
    ['days from nothing', payment({ netDays: '14' }), 'payment.from', /^is missing: what .* counted from/],
    ['no days', payment({ from: 'invoice' }), 'payment.netDays', /^is missing: how many days/],
    [
      'a day of the month beside days',
      payment({ netDays: '14', from: 'invoice', dayOfMonth: '15' }),
      'payment.dayOfMonth',
      /^is a second due date beside "netDays"; keep one/,
    ],
    [
      'a deferral beside a day of the month',
      payment({ dayOfMonth: '15', deferredTo: '2027-01-05' }),
      'payment.deferredTo',
      /^is a second due date beside "dayOfMonth"/,
    ],
    ['a day of no month', payment({ dayOfMonth: '32' }), 'payment.dayOfMonth', /from 1 to 31/],
    ['day 0', payment({ dayOfMonth: '0' }), 'payment.dayOfMonth', /from 1 to 31/],
    ['a deferral to no day', payment({ deferredTo: '2027-02-29' }), 'payment.deferredTo', /must be a date/],
    ['an invoice a year', payment({ invoices: 'year' }), 'payment.invoices', /one of "load", "day"/],
    ['nobody’s invoice', payment({ issuedBy: 'bank' }), 'payment.issuedBy', /one of "seller", "buyer"/],
    [
      'interest without its day count',
      payment({ interest: { percentPerYear: '6.5' } }),
      'payment.interest.dayCount',
      /is missing: one of "actual\/365", "actual\/360", "30\/360"/,
    ],
    [
      'interest without its rate',
      payment({ interest: { dayCount: '30/360' } }),
      'payment.interest.percentPerYear',
      /is missing/,
    ],
    [
      'interest that is paid out',
      payment({ interest: { ...INTEREST, percentPerYear: '-1' } }),
      'payment.interest.percentPerYear',
      /0 or more/,
    ],
    [
      'a discount of nothing',
      payment({ discount: { percent: '0', withinDays: '10' } }),
      'payment.discount.percent',
      /above 0 and at most 100/,
    ],
    [
      'a discount for ever',
      payment({ discount: { percent: '2' } }),
      'payment.discount.withinDays',
      /is missing/,
    ],
    ['no fee', payment({ returnedPaymentFee: '0' }), 'payment.returnedPaymentFee', /above 0/],
    ['an empty payment', payment({}), 'payment', /^holds nothing/],
    ['more than all in advance', advance({ sharePercent: '100.01' }), 'advance.sharePercent', /at most 100/],
    ['an advance of no rate', advance({ rate: '0' }), 'advance.rate', /above 0/],
    ['an advance a mile', advance({ per: 'mile' }), 'advance.per', /one of "lb", .*"load"/],
    ['no deduction', { deductions: [] }, 'deductions', /at least one deduction/],
    [
      'a ton of which weight',
      deduction({ rate: '1', per: 'tonne' }),
      'deductions[0].weight',
      /^is missing: "as-fed" or "dry-matter"/,
    ],
    [
      'a bushel of which weight',
      bushel({ weight: undefined }),
      'deductions[0].weight',
      /^is missing: "as-fed" or "dry-matter"/,
    ],
    [
      'a load of dry matter',
      deduction({ rate: '1', per: 'load', weight: 'dry-matter' }),
      'deductions[0].weight',
      /^has no meaning per load; remove it/,
    ],
    [
      'a percent of dry matter',
      deduction({ rate: '1', per: 'percent', weight: 'as-fed' }),
      'deductions[0].weight',
      /^has no meaning per percent; remove it/,
    ],
    [
      'a bushel of no weight',
      bushel({ poundsPerBushel: undefined }),
      'deductions[0].poundsPerBushel',
      /^is missing: the pounds that count as one bushel/,
    ],
    [
      'pounds a bushel of tons',
      bushel({ per: 'short-ton' }),
      'deductions[0].poundsPerBushel',
      /^belongs to a deduction per bushel; remove it/,
    ],
    [
      'more than all',
      deduction({ rate: '100.5', per: 'percent' }),
      'deductions[0].rate',
      /^must be at most 100 where it is percent; found 100.5/,
    ],
    ['a deduction of no kind', bushel({ per: undefined }), 'deductions[0].per', /^is missing/],
    ['a deduction without a name', bushel({ label: ' ' }), 'deductions[0].label', /not empty/],
  ])('%s', (_, conditions, path, message) => {
    const problems = problemsOf(conditions);
    const place = `$.conditions.${path} `;
    expect(problems).toHaveLength(1);
    expect(problems[0]?.slice(0, place.length)).toBe(place);
    expect(problems[0]?.slice(place.length)).toMatch(message);
  });

  test('hide no other one', () => {
    const paths = checkConditions({
      payment: { netDays: '14', dayOfMonth: '15', deferredTo: '2027-01-05', interest: 'some' },
      deductions: [{ ...BUSHEL, weight: undefined, poundsPerBushel: undefined }, 'none', { per: 'percent' }],
    }).map(({ path }) => printPath(path).replace('$.conditions.', ''));
    expect(paths.sort()).toEqual([
      'deductions[0].poundsPerBushel',
      'deductions[0].weight',
      'deductions[1]',
      'deductions[2].label',
      'deductions[2].rate',
      'payment.dayOfMonth',
      'payment.deferredTo',
      'payment.from',
      'payment.interest',
    ]);
  });
});
