/**
 * Invented documents about money for the tests of their papers.
 */
import { FEEDS } from '../../../src/domain/agreement/measures.ts';
import type {
  AdvanceTaken,
  DeductionLine,
  DocumentLine,
  MoneyDocument,
} from '../../../src/domain/money/money-document.ts';

export const FINGERPRINT = '9f2c7d1e5b8a40366c1f0e92d7ab54c83e6f7019b2c4d5a8e1f30b7c6d92a45e';

/** The lines of one load; they come to 1,986.85. */
export function loadLines(ticket: string, deliveredOn = '2026-09-14'): DocumentLine[] {
  const load = { ticket, deliveredOn };
  return [
    {
      load,
      label: 'Grain, by its starch',
      quantity: '21215.945915',
      unit: 'lb',
      rate: '0.0855875',
      amount: '1815.82',
      how: '47,120 lb × 59.2 % dry matter × 54 % starch ÷ 71 % = 21,215.945915 lb; 4.05 ÷ (56 × 84.5 %) = 0.0855875 USD/lb',
    },
    {
      load,
      label: 'Cob, husk and other fibre',
      quantity: '6679.094085',
      unit: 'lb',
      rate: '0.0513525',
      amount: '342.99',
      how: '27,895.04 lb dry matter − 21,215.945915 lb = 6,679.094085 lb; 0.0855875 × 60 % = 0.0513525 USD/lb',
    },
    {
      load,
      label: 'Fibre above range',
      quantity: '13.94752',
      unit: 'short-ton',
      rate: '-5.15',
      amount: '-71.83',
      how: 'NDF 31.3 % is 5.3 points above 26: 4 × −0.80 + 1.3 × −1.50 = −5.15 USD per short ton of dry matter',
    },
    {
      load,
      label: 'Hauling',
      quantity: '23.56',
      unit: 'short-ton',
      rate: '-4.25',
      amount: '-100.13',
      how: '47,120 lb ÷ 2,000 × −4.25 USD',
    },
  ];
}

function deduction(ticket: string, more: Partial<DeductionLine> = {}): DeductionLine {
  return {
    load: { ticket, deliveredOn: '2026-09-14' },
    label: 'Corn check-off',
    quantity: '378.856177',
    unit: 'bushel',
    rate: '0.01',
    amount: '3.79',
    how: '21,215.945915 lb ÷ 56 × 0.01 USD',
    payee: 'Fenwright Corn Board',
    ...more,
  };
}

export const advance: AdvanceTaken = {
  load: { ticket: 'T1', deliveredOn: '2026-09-14' },
  number: '3',
  issuedOn: '2026-09-15',
  amount: '900.00',
};

/** One load, nothing taken off. */
export const invoice: MoneyDocument = {
  format: 'huskledger-document/1',
  kind: 'invoice',
  number: '17',
  agreement: { number: 'A-26-014', version: '2', fingerprint: FINGERPRINT },
  seller: 'Quillback Acres',
  buyer: 'Tarn Hollow Dairy',
  issuedBy: 'seller',
  feed: FEEDS['whole-ear-corn'],
  issuedOn: '2026-09-20',
  dueOn: '2026-10-20',
  period: { from: '2026-09-14', to: '2026-09-14' },
  currency: 'USD',
  corrects: [],
  reason: null,
  lines: loadLines('T1'),
  deductions: [],
  advances: [],
  totals: { goods: '1986.85', deductions: '0.00', advances: '0.00', payable: '1986.85' },
  jointPayees: [],
  terms: [
    'Due 30 days after the invoice is issued.',
    'What is unpaid past its due date bears 6.5 % interest a year, counted by actual days over 360.',
  ],
};

/** Three loads, drawn up by the buyer, with deductions, an advance, and a lender to pay jointly. */
export const fullInvoice: MoneyDocument = {
  ...invoice,
  number: '18',
  issuedBy: 'buyer',
  period: { from: '2026-09-14', to: '2026-09-15' },
  lines: [...loadLines('T1'), ...loadLines('T2'), ...loadLines('T3', '2026-09-15')],
  deductions: [
    deduction('T1'),
    deduction('T2'),
    deduction('T3'),
    deduction('T1', {
      label: 'Scale fee',
      unit: 'load',
      quantity: '1',
      rate: '8',
      amount: '8.00',
      how: '1 load × 8 USD',
      payee: null,
    }),
  ],
  advances: [advance],
  totals: { goods: '5960.55', deductions: '19.37', advances: '900.00', payable: '5041.18' },
  jointPayees: ['Sallowfen Farm Lending'],
};

export const creditNote: MoneyDocument = {
  ...invoice,
  kind: 'credit-note',
  number: '21',
  corrects: [{ kind: 'invoice', number: '17', issuedOn: '2026-09-20' }],
  reason: 'The retest of sample S1 found NDF at 33.0 % of dry matter.',
  lines: [
    {
      load: { ticket: 'T1', deliveredOn: '2026-09-14' },
      label: 'Fibre above range, corrected',
      quantity: '13.94752',
      unit: 'short-ton',
      rate: '-2.55',
      amount: '-35.57',
      how: 'NDF 33.0 % instead of 31.3 %: −7.70 − (−5.15) = −2.55 USD per short ton of dry matter',
    },
  ],
  totals: { goods: '-35.57', deductions: '0.00', advances: '0.00', payable: '-35.57' },
  terms: [],
};

export const interestInvoice: MoneyDocument = {
  ...invoice,
  kind: 'interest',
  number: '9',
  period: null,
  corrects: [{ kind: 'invoice', number: '17', issuedOn: '2026-09-20' }],
  lines: [
    {
      load: null,
      label: 'Interest on Invoice 17',
      quantity: '1986.85',
      unit: 'USD',
      rate: '0.001805556',
      amount: '3.59',
      how: '1986.85 × 10 days × 6.5 % ÷ 360',
    },
  ],
  totals: { goods: '3.59', deductions: '0.00', advances: '0.00', payable: '3.59' },
};

/** In a currency without decimals. */
export const yenInvoice: MoneyDocument = {
  ...invoice,
  currency: 'JPY',
  lines: [
    {
      load: { ticket: 'T1', deliveredOn: '2026-09-14' },
      label: 'Feed',
      quantity: '21.374',
      unit: 'tonne',
      rate: '14200',
      amount: '303511',
      how: '21.374 tonne × 14,200 JPY',
    },
    {
      load: { ticket: 'T1', deliveredOn: '2026-09-14' },
      label: 'Hauling',
      quantity: '1',
      unit: 'load',
      rate: '-9500',
      amount: '-9500',
      how: '1 load × −9,500 JPY',
    },
  ],
  totals: { goods: '294011', deductions: '0', advances: '0', payable: '294011' },
};

/** As many loads as wanted, of four lines each. */
export function longInvoice(loads: number): MoneyDocument {
  const lines = Array.from({ length: loads }, (_, index) => loadLines(`T${index + 1}`)).flat();
  const cents = 198685n * BigInt(loads);
  const goods = `${cents / 100n}.${String(cents % 100n).padStart(2, '0')}`;
  return { ...invoice, lines, totals: { goods, deductions: '0.00', advances: '0.00', payable: goods } };
}

const LONG =
  'The Incorporated Quillback Acres Family Farms and Grain Handling Partnership of the Upper Sallowfen Valley';

/** Long names, a long ticket, a long reason. */
export const crowdedInvoice: MoneyDocument = {
  ...fullInvoice,
  kind: 'debit-note',
  number: '1048576',
  seller: LONG,
  buyer: `Łódź-Peñasco-Győr Cooperative Dairy and ${LONG}`,
  corrects: [
    { kind: 'invoice', number: '17', issuedOn: '2026-09-20' },
    { kind: 'credit-note', number: '21', issuedOn: '2026-09-28' },
    { kind: 'debit-note', number: '22', issuedOn: '2026-09-29' },
  ],
  reason:
    'The scale at the farm was tested on 2026-09-25 and found to weigh a hundred pounds too little on every truck since its last test. '
      .repeat(3)
      .trim(),
  lines: [
    ...loadLines('SCALEHOUSE-NORTH-2026-000000000000000001-REWEIGHED-AND-CORRECTED-BY-BOTH-PARTIES'),
    ...loadLines('T2').map((line) => ({
      ...line,
      label: `${line.label}, ${LONG}`,
      amount: line.amount.replace(/^(-?)/, '$1123456'),
    })),
  ],
  jointPayees: ['Sallowfen Farm Lending', `Second ${LONG}`],
};
