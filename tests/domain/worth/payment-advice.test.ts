/**
 * Advice on terms of payment and advances: each provoked by conditions that earn it, and silent at the very edge.
 */
import { expect, test } from 'vitest';
import type { AdviceKind } from '../../../src/domain/worth/advice/advice.ts';
import { adviseOn } from '../../../src/domain/worth/advise.ts';
import { draft, ROUND_QUOTES } from './drafts.ts';

type Part = Readonly<Record<string, unknown>>;

function advice(conditions: Part): readonly { readonly kind: AdviceKind; readonly message: string }[] {
  return adviseOn(draft({ conditions }), { quotes: ROUND_QUOTES });
}

/** The only advice that is given, of that kind. */
function only(conditions: Part, kind: AdviceKind): string {
  const found = advice(conditions);
  expect(found.map((one) => one.kind)).toEqual([kind]);
  expect(found[0]?.message).toMatch(/^[A-Z].*\.$/);
  return found[0]?.message ?? '';
}

test('interest without a due date', () => {
  const interest = { percentPerYear: '6.5', dayCount: 'actual/360' };
  expect(only({ payment: { interest } }, 'interest-without-due-date')).toBe(
    'Interest of 6.5 % a year is agreed on what is late, but no due date. An invoice is then due on the day it is issued, and Tarn Hollow Dairy owes interest from the next day on. Agree how many days Tarn Hollow Dairy has to pay.',
  );
  for (const due of [
    { netDays: '0', from: 'delivery' },
    { dayOfMonth: '15' },
    { deferredTo: '2027-01-05' },
  ]) {
    expect(advice({ payment: { interest, ...due } })).toEqual([]);
  }
});

test('a discount that outlasts the time to pay', () => {
  const payment = (withinDays: string, netDays: string, from: string) => ({
    payment: { discount: { percent: '2', withinDays }, netDays, from },
  });
  expect(only(payment('15', '14', 'invoice'), 'discount-after-due')).toBe(
    'A discount of 2 % may be taken for 15 days after the date of an invoice, but payment is due 14 days after the date of the invoice. Whoever pays late still earns the discount, so the price is 2 % lower for everybody. Let the discount end before payment is due, or leave it out.',
  );
  expect(only(payment('10', '9', 'delivery'), 'discount-after-due')).toContain('9 days after the delivery.');
  expect(advice(payment('14', '14', 'invoice'))).toEqual([]);
  // By figure, not by text: "9" is less than "14".
  expect(advice(payment('9', '14', 'settlement'))).toEqual([]);
  expect(advice({ payment: { discount: { percent: '2', withinDays: '90' }, dayOfMonth: '1' } })).toEqual([]);
});

test('an advance of more than a load comes to', () => {
  const advance = (sharePercent: string, rate: string, per: string) => ({
    advance: { sharePercent, rate, per },
  });
  const found = only(advance('100', '500', 'short-ton'), 'advance-above-price');
  // 24 short tons at 500.
  expect(found).toContain('The advance on a load of 24 short tons is 12000.00 USD');
  const total = /usually comes to (\d+\.\d\d) USD/.exec(found)?.[1] ?? '';
  expect(found).toContain('Quillback Acres would owe money back once it settles.');
  // The whole of the price is not too much, and half a cent more is.
  expect(advice(advance('100', total, 'load'))).toEqual([]);
  expect(advice(advance('100', `${total}4`, 'load'))).toEqual([]);
  expect(only(advance('100', `${total}5`, 'load'), 'advance-above-price')).toContain(total);
  // 80 % of 480 hundredweights.
  expect(only(advance('80', '7', 'cwt'), 'advance-above-price')).toContain('is 2688.00 USD');
  expect(advice(advance('80', '80', 'short-ton'))).toEqual([]);
});

test('conditions of another shape are not judged', () => {
  expect(advice({ payment: { interest: 'some' }, advance: { rate: 'all' } })).toEqual([]);
});
