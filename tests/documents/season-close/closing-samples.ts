/**
 * Closing statements with something in every place, one as it is drawn up for each step of signing.
 */
import { createHash } from 'node:crypto';
import type { ClosingPaper } from '../../../src/documents/season-close/closing-paper.ts';
import type { ClosingStatement } from '../../../src/domain/season-close/closing-statement.ts';

const hash = (text: string) => createHash('sha256').update(text).digest('hex');

export const statement: ClosingStatement = {
  format: 'huskledger-closing/1',
  agreement: { id: 'an-id', number: 'A-26-014', versions: [hash('first'), hash('second')] },
  seller: 'Quillback Acres',
  buyer: 'Tarn Hollow Dairy',
  currency: 'USD',
  drawnUpOn: '2026-11-25',
  journal: { entries: '1347', head: hash('head'), root: hash('root') },
  loads: { settled: '311', refused: '4', void: '5', unsettled: '2' },
  committed: {
    amount: '7500',
    unit: 'short-ton',
    weight: 'as-fed',
    tolerancePercent: '10',
    delivered: '7412.345',
    standing: 'within',
  },
  money: {
    settled: '498765.43',
    invoiced: '497999.99',
    paid: '496543.21',
    discounts: '345.67',
    balance: '1111.11',
  },
  questions: { decided: '6', withdrawn: '7', agreed: '8' },
  adjustments: [
    {
      rule: 'shortfall',
      words: '7412.345 short tons came, 87.655 of them short.',
      ...{ amount: '1250.50', issued: '1000.25' },
    },
    { rule: 'true-up', words: 'Nobody knows yet.', amount: null, issued: '0.00' },
  ],
  carried: [
    { kind: 'unsettled', count: '2', words: '2 loads have not settled', amount: null },
    { kind: 'balance', count: '1', words: 'Tarn Hollow Dairy owes 1111.11 USD', amount: '1111.11' },
  ],
  differences: [
    { ticket: 'T-118', by: 'Quillback Acres', amount: '83.25', words: 'Our slip has 20,800 lb' },
    { ticket: null, by: 'Tarn Hollow Dairy', amount: '0.00', words: 'Days are booked one later' },
  ],
};

/** As it stands, with something in the way. */
export const asItStands: ClosingPaper = {
  statement,
  timeZone: 'America/Boise',
  signatures: [],
  inTheWay: [{ kind: 'question', count: 3, amount: null }],
};

/** Signed by the seller alone. */
export const drawnUp: ClosingPaper = {
  statement,
  timeZone: 'America/Boise',
  fingerprint: hash('statement'),
  signatures: [{ side: 'seller', name: 'Wren Alder', on: '2026-11-25' }],
  inTheWay: [],
};

export const sealed: ClosingPaper = {
  ...drawnUp,
  signatures: [...drawnUp.signatures, { side: 'buyer', name: 'Juniper Marsh', on: '2026-11-26' }],
  seal: {
    root: statement.journal.root,
    mark: hash('mark'),
    on: '2026-11-26',
    sealedAt: '2026-11-26T18:04:05.678Z',
  },
};

/** Long names, great amounts, a season of nothing delivered late, and many versions: what has to wrap. */
export const crowded: ClosingPaper = {
  ...sealed,
  statement: {
    ...statement,
    agreement: {
      ...statement.agreement,
      number: 'THE-LONGEST-NUMBER-THAT-ANYBODY-WOULD-GIVE-TO-AN-AGREEMENT-2026-014',
      versions: Array.from({ length: 24 }, (_, index) => hash(String(index))),
    },
    seller:
      'The Quillback Acres and Sorrel Bend Family Growers’ Cooperative of Larkspur and Fernway, Łódka Branch',
    buyer: 'Tarn Hollow, Marrow Creek and Bell Reach United Dairies and Feedlots of the Lower Alder Valley',
    currency: 'JPY',
    money: {
      settled: '98765432109876543210',
      invoiced: '98765432109876543210',
      paid: '-98765432109876543210',
      balance: '-98765432109876543210',
    },
    carried: [{ kind: 'balance', count: '1', words: 'as said', amount: '-98765432109876543210' }],
  },
  signatures: [
    { side: 'seller', name: `${'Wren-Ánders Alder '.repeat(6)}Őry`, on: '2026-11-25' },
    { side: 'buyer', name: 'W'.repeat(120), on: '2026-11-26' },
  ],
};
