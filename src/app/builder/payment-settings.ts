/**
 * What is asked about the money beside the price: when it is due, what being late or early costs, who is paid together
 * with the seller, money before a load has settled, and what is taken off.
 */
import { PER_WORDS, WEIGHT_OPTIONS } from './format-words.ts';
import { optionsOf, type Setting, type SettingGroup, UNSAID } from './setting.ts';

const { 'short-ton': SHORT_TON, tonne, cwt, lb, kg, load } = PER_WORDS;
const ADVANCED_PER = optionsOf({ 'short-ton': SHORT_TON, tonne, cwt, lb, kg, load });
const DEDUCTED_PER = optionsOf({
  'short-ton': SHORT_TON,
  tonne,
  cwt,
  lb,
  kg,
  bushel: 'bushel, by weight',
  load,
  percent: 'percent of the load’s price',
});

const DUE: readonly Setting[] = [
  {
    kind: 'figure',
    path: ['payment', 'netDays'],
    label: 'Due within',
    unit: 'days',
    hint: 'With 0, on the day itself.',
  },
  {
    kind: 'list',
    path: ['payment', 'from'],
    label: 'Counted from',
    hint: 'Where an invoice is for several loads, from the last of them.',
    options: optionsOf({
      delivery: 'the delivery',
      settlement: 'the settlement',
      invoice: 'the invoice',
    }),
    without: UNSAID,
  },
  {
    kind: 'figure',
    path: ['payment', 'dayOfMonth'],
    label: 'Or due on a day of the next month',
    hint: 'Of the month after the invoice, 1 to 31. A shorter month: its last day.',
  },
  {
    kind: 'date',
    path: ['payment', 'deferredTo'],
    label: 'Or deferred to',
    hint: 'Local law sets how far payment may be deferred, and in what form.',
  },
];

const INVOICES: readonly Setting[] = [
  {
    kind: 'list',
    path: ['payment', 'invoices'],
    label: 'An invoice for each',
    options: optionsOf({
      load: 'load',
      day: 'day',
      week: 'week, Monday to Sunday',
      month: 'month',
      season: 'season',
    }),
    without: UNSAID,
  },
  {
    kind: 'list',
    path: ['payment', 'issuedBy'],
    label: 'Who draws up the invoices',
    options: optionsOf({ seller: 'the seller', buyer: 'the buyer, for the seller (self-billing)' }),
    without: UNSAID,
  },
];

const LATE_OR_EARLY: readonly Setting[] = [
  {
    kind: 'figure',
    path: ['payment', 'interest', 'percentPerYear'],
    label: 'Interest on what is late',
    unit: '% a year',
    hint: 'Simple, from the day after it was due through the day paid.',
  },
  {
    kind: 'list',
    path: ['payment', 'interest', 'dayCount'],
    label: 'Days of interest',
    options: optionsOf({
      'actual/365': 'as they are, of 365 a year',
      'actual/360': 'as they are, of 360 a year',
      '30/360': '30 a month, of 360 a year',
    }),
    without: UNSAID,
  },
  {
    kind: 'figure',
    path: ['payment', 'discount', 'percent'],
    label: 'Discount for early payment',
    unit: '%',
    hint: 'Of an invoice that is paid in full.',
  },
  {
    kind: 'figure',
    path: ['payment', 'discount', 'withinDays'],
    label: 'If paid within',
    unit: 'days',
    hint: 'After the date of the invoice.',
  },
  {
    kind: 'figure',
    path: ['payment', 'returnedPaymentFee'],
    label: 'Fee for a payment that the bank gives back',
    hint: 'In the agreement’s currency. Whoever made the payment owes it.',
  },
];

const ADVANCE: readonly Setting[] = [
  {
    kind: 'figure',
    path: ['advance', 'sharePercent'],
    label: 'Share paid in advance',
    unit: '%',
    hint: 'Of what the load is thought to be worth.',
  },
  {
    kind: 'figure',
    path: ['advance', 'rate'],
    label: 'A load is thought to be worth',
    hint: 'Before its result, in the agreement’s currency.',
  },
  {
    kind: 'list',
    path: ['advance', 'per'],
    label: 'For each',
    hint: 'Weights as delivered, wet.',
    options: ADVANCED_PER,
    without: UNSAID,
  },
  {
    kind: 'yes-no',
    path: ['advance', 'byNewestQuote'],
    label: 'Newest quote counts once tested',
    hint: 'For a load that has its result and lacks only a quote.',
  },
];

const DEDUCTIONS: Setting = {
  kind: 'rows',
  path: ['deductions'],
  label: 'Taken off for each load',
  row: 'deduction',
  columns: [
    { kind: 'text', path: ['label'], label: 'Name' },
    { kind: 'figure', path: ['rate'], label: 'Rate', hint: 'Money, or percent.' },
    { kind: 'list', path: ['per'], label: 'For each', options: DEDUCTED_PER, without: UNSAID },
    {
      kind: 'list',
      path: ['weight'],
      label: 'Weighed as',
      hint: 'Only for weights and bushels.',
      options: WEIGHT_OPTIONS,
      without: UNSAID,
    },
    {
      kind: 'figure',
      path: ['poundsPerBushel'],
      label: 'Bushel of',
      unit: 'lb',
      hint: 'Only for bushels.',
    },
    { kind: 'text', path: ['payee'], label: 'Paid on to', hint: 'Empty: the buyer keeps it.' },
  ],
  empty: {},
};

/** Paths are from the block `conditions`. */
export const PAYMENT_GROUPS: readonly SettingGroup[] = [
  {
    heading: 'Payment',
    hint: 'Agree on one due date: days, a day of the month, or a date that payment is deferred to.',
    settings: [
      ...DUE,
      ...INVOICES,
      ...LATE_OR_EARLY,
      { kind: 'lines', path: ['payment', 'text'], label: 'More about payment' },
      {
        kind: 'rows',
        path: ['lienHolders'],
        label: 'Lien holders, named on each payment beside the seller',
        row: 'lien holder',
        columns: [{ kind: 'text', path: ['name'], label: 'Name' }],
        empty: {},
      },
    ],
  },
  {
    heading: 'Advances',
    hint: 'Money for a load before it has settled. It is taken off when the load is invoiced.',
    settings: ADVANCE,
  },
  {
    heading: 'Deductions',
    hint: 'They do not change the price. Where law sets an assessment on producers, check its rate and payee against the law.',
    settings: [DEDUCTIONS],
  },
];
