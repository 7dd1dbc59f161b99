/**
 * Terms of payment that do not fit each other, or an advance that does not fit the price. Conditions of a shape of their
 * own are nobody's to judge.
 */
import { conditionsOf } from '../../agreement/conditions.ts';
import type { Agreement } from '../../agreement/document.ts';
import { compare, decimal, type Exact, multiply, ONE, percent } from '../../numbers/exact.ts';
import { roundTo } from '../../numbers/rounding.ts';
import { fromPounds, toPounds } from '../../quantities/units.ts';
import { moneyOf } from '../../settlement/settle-load.ts';
import { countOfDays } from '../../words/figures-in-words.ts';
import type { Advance, Payment } from '../../words/payment-words.ts';
import type { Advice } from './advice.ts';
import { type Ground, totalOf } from './ground.ts';

/** Warnings where interest has no due date to run from, and where a late payment would earn the early one's discount. */
export function adviseOnPayment(agreement: Agreement): Advice[] {
  const payment = conditionsOf(agreement)?.payment;
  return payment ? [...adviseOnInterest(payment, agreement), ...adviseOnDiscount(payment)] : [];
}

function adviseOnInterest(payment: Payment, { buyer }: Agreement): Advice[] {
  const { interest, netDays, dayOfMonth, deferredTo } = payment;
  if (!interest || (netDays ?? dayOfMonth ?? deferredTo) !== undefined) return [];
  return [
    {
      kind: 'interest-without-due-date',
      message: `Interest of ${interest.percentPerYear} % a year is agreed on what is late, but no due date. An invoice is then due on the day it is issued, and ${buyer} owes interest from the next day on. Agree how many days ${buyer} has to pay.`,
    },
  ];
}

/** Only where days are agreed: how long a day of the month leaves depends on the invoice. */
function adviseOnDiscount({ discount, netDays, from }: Payment): Advice[] {
  if (!discount || netDays === undefined || from === undefined) return [];
  const { percent: off, withinDays } = discount;
  if (Number(withinDays) <= Number(netDays)) return [];
  const since = from === 'invoice' ? 'the date of the invoice' : `the ${from}`;
  return [
    {
      kind: 'discount-after-due',
      message: `A discount of ${off} % may be taken for ${countOfDays(withinDays)} after the date of an invoice, but payment is due ${countOfDays(netDays)} after ${since}. Whoever pays late still earns the discount, so the price is ${off} % lower for everybody. Let the discount end before payment is due, or leave it out.`,
    },
  ];
}

/** A warning where the advance on a usual load is more than the load usually comes to. */
export function adviseOnAdvance(ground: Ground): Advice[] {
  const { agreement, usual, tellMoney, loadInWords } = ground;
  const advance = conditionsOf(agreement)?.advance;
  const total = advance && totalOf(ground, ground.tryLoad(usual));
  if (!advance || !total) return [];
  const paid = advancePaid(advance, ground);
  if (compare(paid, total) <= 0) return [];
  return [
    {
      kind: 'advance-above-price',
      message: `The advance on ${loadInWords} is ${tellMoney(paid)}, and such a load usually comes to ${tellMoney(total)} by this formula. ${agreement.seller} would owe money back once it settles. Lower the rate of ${advance.rate} that a load is thought to be worth, or the share of ${advance.sharePercent} %.`,
    },
  ];
}

function advancePaid({ sharePercent, rate, per }: Advance, { load, agreement }: Ground): Exact {
  const quantity = per === 'load' ? ONE : fromPounds(toPounds(load.net, load.unit), per);
  const { decimals, rounding } = moneyOf(agreement);
  return roundTo(
    multiply(multiply(decimal(rate), percent(decimal(sharePercent))), quantity),
    decimals,
    rounding,
  );
}
