/**
 * Terms of payment, advances and deductions in words: what is due when, what being late or early costs, and what is
 * taken off. They say what `money/` works out; every figure and text stands in them as it was written.
 */
import type { Conditions } from '../agreement/conditions.ts';
import type { DayCount } from '../money/day-count.ts';
import { namePer } from '../settlement/per-quantity.ts';
import { asSentence, countOfDays, ordinal } from './figures-in-words.ts';
import type { Parties } from './parties.ts';

export type Payment = NonNullable<Conditions['payment']>;
export type Advance = NonNullable<Conditions['advance']>;
export type Deduction = NonNullable<Conditions['deductions']>[number];

/** Whose money it is, and in which currency. */
export interface PaymentSetting extends Parties {
  readonly currency: string;
}

/** The terms of payment, a sentence or a few for each thing that is agreed. */
export function paymentInWords(payment: Payment, setting: PaymentSetting): string[] {
  const { invoices, text } = payment;
  return [
    ...dueWords(payment, setting),
    ...(invoices === undefined ? [] : [INVOICES[invoices]]),
    ...issuerWords(payment, setting),
    ...interestWords(payment, setting),
    ...discountWords(payment, setting),
    ...feeWords(payment, setting),
    ...(text === undefined ? [] : [asSentence(text)]),
  ];
}

/** Where there is nothing to wait for: 0 days after it. */
const AT_ONCE = {
  delivery: 'on delivery',
  settlement: 'on settlement',
  invoice: 'on the day of the invoice',
} as const;

const AFTER = {
  delivery: 'a load is delivered',
  settlement: 'a load is settled',
  invoice: 'the date of an invoice',
} as const;

const NOT_BEFORE_INVOICE = 'An invoice that is issued after that is due on the day it is issued.';

/** Iowa Code 203.15 and Wis. Stat. 126.19, read in dated copies. */
const DEFERRAL_BY_LAW =
  'How far payment may be deferred, and in what form, is set by law where you live: a dated copy of Iowa Code 203.15 asks for a numbered form that both sign, and for at most 12 months; one of Wis. Stat. 126.19 for a contract in writing, signed before delivery, and payment within 180 days of pricing. Ask which rule is yours before you sign.';

function dueWords(payment: Payment, { seller, buyer }: Parties): string[] {
  const { netDays, from, dayOfMonth, deferredTo } = payment;
  if (deferredTo !== undefined) {
    return [
      `Payment is deferred to ${deferredTo}: nothing is due before that day, and ${buyer} pays ${seller} on it at the latest. ${NOT_BEFORE_INVOICE}`,
      DEFERRAL_BY_LAW,
    ];
  }
  if (dayOfMonth !== undefined) {
    const shorter = Number(dayOfMonth) > 28 ? '; where a month is shorter, on its last day' : '';
    return [
      `${buyer} pays ${seller} at the latest on the ${ordinal(dayOfMonth)} of the month after the one in which the invoice is issued${shorter}.`,
    ];
  }
  if (netDays === undefined || from === undefined) return [];
  const when = Number(netDays) === 0 ? `${AT_ONCE[from]},` : 'at the latest';
  return [
    [
      `${buyer} pays ${seller} ${when} ${countOfDays(netDays)} after ${AFTER[from]}.`,
      ...countedWords(payment),
    ].join(' '),
  ];
}

/** What the days are counted from where there are several loads, or none that is invoiced in time. */
function countedWords({ from, invoices }: Payment): string[] {
  if (from === 'invoice') return [];
  return [
    ...(invoices === 'load'
      ? []
      : ['Where an invoice is for several loads, the days are counted from the last of them.']),
    NOT_BEFORE_INVOICE,
  ];
}

const INVOICES = {
  load: 'Each load has an invoice of its own.',
  day: 'The loads of a day are invoiced together.',
  week: 'The loads of a week, Monday to Sunday, are invoiced together.',
  month: 'The loads of a month are invoiced together.',
  season: 'All loads of the season are invoiced together.',
} as const;

function issuerWords({ issuedBy }: Payment, { seller, buyer }: Parties): string[] {
  if (issuedBy === undefined) return [];
  return [
    issuedBy === 'seller'
      ? `${seller} draws up the invoices.`
      : `${buyer} draws up the invoices itself in the name of ${seller} (self-billing), and ${seller} sends none of its own.`,
  ];
}

const DAY_COUNTS: Readonly<Record<DayCount, string>> = {
  'actual/365': 'Days are counted as they are, and a year has 365 (actual/365).',
  'actual/360': 'Days are counted as they are, and a year has 360 (actual/360).',
  '30/360':
    'Each month counts as 30 days and a year as 360 (30/360): a 31st counts as the 30th where the days begin on it, and where they end on it after beginning on a 30th or 31st; the end of February counts as it is.',
};

function interestWords({ interest }: Payment, { seller, buyer }: Parties): string[] {
  if (!interest) return [];
  return [
    `On what it pays late, ${buyer} owes ${seller} interest of ${interest.percentPerYear} % a year: simple, from the day after the due date through the day paid, on what was still owed on each day. ${DAY_COUNTS[interest.dayCount]} The interest on an invoice is rounded once.`,
  ];
}

function discountWords({ discount }: Payment, { buyer }: Parties): string[] {
  if (!discount) return [];
  const { percent, withinDays } = discount;
  return [
    `${buyer} may take ${percent} % off an invoice that it pays in full within ${countOfDays(withinDays)} after the date of the invoice.`,
  ];
}

function feeWords({ returnedPaymentFee: fee }: Payment, { buyer, currency }: PaymentSetting): string[] {
  return fee === undefined
    ? []
    : [`A payment of ${buyer} that the bank gives back costs it ${fee} ${currency}.`];
}

/** What is paid for a load before it has settled, what the load is valued at, and that it is taken off again. */
export function advanceInWords(advance: Advance, { seller, buyer, currency }: PaymentSetting): string[] {
  const { sharePercent, rate, per, byNewestQuote } = advance;
  const unit = namePer({ per, ...(per === 'load' ? {} : { weight: 'as-fed' }) });
  return [
    [
      `For a load that has not settled yet, ${buyer} pays ${seller} an advance of ${sharePercent} % of what the load is thought to be worth, on an advance invoice.`,
      `It is thought to be worth ${rate} ${currency} for each ${unit}.`,
      ...(byNewestQuote === undefined ? [] : [byNewestQuote ? NEWEST_QUOTE : NO_QUOTE]),
      'The advance is taken off when the load is invoiced.',
    ].join(' '),
  ];
}

const NEWEST_QUOTE =
  'A load that has its result and lacks only a quote is valued by the price formula instead, at the newest quote by its delivery day.';
const NO_QUOTE = 'A load that lacks only a quote is valued so, too, and not by an older quote.';

/** What is taken off for each load, by how much, and who gets it. */
export function deductionsInWords(deductions: readonly Deduction[], setting: PaymentSetting): string[] {
  const { seller } = setting;
  return [
    `These are taken off what ${seller} is paid for each load. They do not change its price.`,
    ...deductions.map((deduction) => deductionWords(deduction, setting)),
    ...(deductions.some(({ payee }) => payee !== undefined) ? [ASSESSMENT_BY_LAW] : []),
  ];
}

/** That such assessments exist and that rates and exemptions are set by law: common practice, no source. */
const ASSESSMENT_BY_LAW =
  'Where one of these is an assessment on producers that law sets, its rate and payee here are this agreement’s own: check them against the law where you live.';

function deductionWords(deduction: Deduction, { buyer, currency }: PaymentSetting): string {
  const { label, rate, payee } = deduction;
  const amount =
    deduction.per === 'percent'
      ? `${rate} % of the price of the load`
      : `${rate} ${currency} for each ${deductedPer(deduction)}`;
  const kept = payee === undefined ? `${buyer} keeps it.` : `${buyer} pays it on to ${asSentence(payee)}`;
  return `${label}: ${amount}. ${kept}`;
}

const OF_WEIGHT = { 'as-fed': 'as-fed', 'dry-matter': 'of dry matter' } as const;

function deductedPer({ per, weight, poundsPerBushel }: Deduction): string {
  if (per === 'bushel') return `bushel of ${poundsPerBushel} lb ${OF_WEIGHT[weight ?? 'as-fed']}`;
  return per === 'percent' ? per : namePer({ per, weight });
}
