/**
 * Invented statements for the tests of their papers.
 */
import type { Statement, StatementEntry } from '../../../src/domain/money/statement.ts';

const nothing = {
  notDue: '0.00',
  days1to30: '0.00',
  days31to60: '0.00',
  days61to90: '0.00',
  over90: '0.00',
  held: '0.00',
  onAccount: '0.00',
  total: '0.00',
};

/** As the seller reads it: 1,234.56 owed before; two invoices, a credit note and a payment. */
export const sellerStatement: Statement = {
  of: 'Quillback Acres',
  with: 'Tarn Hollow Dairy',
  agreements: ['A-26-014', 'A-26-015'],
  currency: 'USD',
  from: '2026-09-01',
  to: '2026-10-31',
  opening: '1234.56',
  entries: [
    {
      on: '2026-09-20',
      agreement: 'A-26-014',
      name: 'Invoice 17',
      detail: '',
      amount: '1986.85',
      balance: '3221.41',
    },
    {
      on: '2026-09-28',
      agreement: 'A-26-014',
      name: 'Credit note 21',
      detail: 'corrects Invoice 17',
      amount: '-35.57',
      balance: '3185.84',
    },
    {
      on: '2026-10-02',
      agreement: 'A-26-014',
      name: 'Payment, check 1043',
      detail: 'paid on 2026-10-01',
      amount: '-1234.56',
      balance: '1951.28',
    },
    {
      on: '2026-10-05',
      agreement: 'A-26-015',
      name: 'Invoice 18',
      detail: '',
      amount: '5041.18',
      balance: '6992.46',
    },
  ],
  closing: '6992.46',
  ageing: {
    ...nothing,
    notDue: '4741.18',
    days1to30: '1951.28',
    held: '400.00',
    onAccount: '-100.00',
    total: '6992.46',
  },
  open: [
    {
      agreement: 'A-26-014',
      kind: 'invoice',
      name: 'Invoice 17',
      issuedOn: '2026-09-20',
      dueOn: '2026-10-20',
      amount: '1986.85',
      open: '1951.28',
      held: '0.00',
      daysLate: 11,
    },
    {
      agreement: 'A-26-015',
      kind: 'invoice',
      name: 'Invoice 18',
      issuedOn: '2026-10-05',
      dueOn: '2026-11-04',
      amount: '5041.18',
      open: '5041.18',
      held: '400.00',
      daysLate: 0,
    },
    {
      agreement: 'A-26-015',
      kind: 'invoice',
      name: 'Invoice 19',
      issuedOn: '2026-10-01',
      dueOn: '2026-10-31',
      amount: '100.00',
      open: '100.00',
      held: '0.00',
      daysLate: 0,
    },
    {
      agreement: 'A-26-014',
      kind: null,
      name: 'On account, check 1050',
      issuedOn: null,
      dueOn: null,
      amount: '-100.00',
      open: '-100.00',
      held: '0.00',
      daysLate: 0,
    },
  ],
  held: [
    {
      agreement: 'A-26-015',
      document: 'Invoice 18',
      ticket: 'T2',
      amount: '400.00',
      since: '2026-10-06',
      by: 'Tarn Hollow Dairy',
      reason: 'The moisture of this load is questioned.',
    },
  ],
  notInvoiced: [
    {
      agreement: 'A-26-015',
      settledLoads: 12,
      settled: '23841.20',
      unpricedLoads: 5,
      valuedLoads: 4,
      provisional: '7800.00',
      advances: '3900.00',
    },
  ],
  liens: [
    {
      agreement: 'A-26-014',
      lender: 'Sallowfen Farm Lending',
      conditions: 'Payment is made out to the seller and the lender together.',
    },
  ],
};

function turned(amount: string): string {
  if (!/[1-9]/.test(amount)) return amount;
  return amount.startsWith('-') ? amount.slice(1) : `-${amount}`;
}

/** The same as the buyer reads it: every sign turned. */
export const buyerStatement: Statement = {
  ...sellerStatement,
  of: sellerStatement.with,
  with: sellerStatement.of,
  opening: turned(sellerStatement.opening),
  closing: turned(sellerStatement.closing),
  entries: sellerStatement.entries.map((entry) => ({
    ...entry,
    amount: turned(entry.amount),
    balance: turned(entry.balance),
  })),
  ageing: Object.fromEntries(
    Object.entries(sellerStatement.ageing).map(([age, amount]) => [age, turned(amount)]),
  ) as unknown as Statement['ageing'],
  open: sellerStatement.open.map((item) => ({
    ...item,
    amount: turned(item.amount),
    open: turned(item.open),
    held: turned(item.held),
  })),
  held: sellerStatement.held.map((held) => ({ ...held, amount: turned(held.amount) })),
  notInvoiced: sellerStatement.notInvoiced.map((part) => ({
    ...part,
    settled: turned(part.settled),
    provisional: turned(part.provisional),
    advances: turned(part.advances),
  })),
};

/** Nothing happened, nothing is owed. */
export const emptyStatement: Statement = {
  ...sellerStatement,
  agreements: ['A-26-014'],
  opening: '0.00',
  entries: [],
  closing: '0.00',
  ageing: nothing,
  open: [],
  held: [],
  notInvoiced: [],
  liens: [],
};

function cents(amount: bigint): string {
  const digits = String(amount < 0n ? -amount : amount).padStart(3, '0');
  return `${amount < 0n ? '-' : ''}${digits.slice(0, -2)}.${digits.slice(-2)}`;
}

/** As many entries as wanted: two invoices, then a payment of what is open, over and over. */
export function longStatement(count: number): Statement {
  let balance = 0n;
  const entries = Array.from({ length: count }, (_, index): StatementEntry => {
    const isPayment = index % 3 === 2;
    const amount = isPayment ? -balance : 198_685n + BigInt(index * 7);
    balance += amount;
    return {
      on: `2026-${String(1 + (Math.floor(index / 28) % 12)).padStart(2, '0')}-${String(1 + (index % 28)).padStart(2, '0')}`,
      agreement: 'A-26-014',
      name: isPayment ? `Payment, check ${1000 + index}` : `Invoice ${index + 1}`,
      detail: isPayment ? 'paid by check' : '',
      amount: cents(amount),
      balance: cents(balance),
    };
  });
  const closing = cents(balance);
  return { ...emptyStatement, entries, closing, ageing: { ...nothing, notDue: closing, total: closing } };
}

const LONG =
  'The Incorporated Quillback Acres Family Farms and Grain Handling Partnership of the Upper Sallowfen Valley';
const REASON =
  'The scale at the farm was tested on 2026-09-25 and found to weigh a hundred pounds too little on every truck since its last test. ';

/** Long names, agreements, tickets and reasons. */
export const crowdedStatement: Statement = {
  ...buyerStatement,
  of: `Łódź-Peñasco-Győr ${LONG}`,
  with: LONG,
  agreements: [
    'A-26-014',
    'QUILLBACK-2026-HIGH-MOISTURE-000000000123',
    'A-26-015',
    'A-26-016',
    'A-26-017',
    'A-26-018',
  ],
  entries: buyerStatement.entries.map((entry, index) => ({
    ...entry,
    agreement: index % 2 === 0 ? 'QUILLBACK-2026-HIGH-MOISTURE-000000000123' : entry.agreement,
    name: `${entry.name}, by transfer from the operating account of the dairy`,
    detail: REASON.repeat(2).trim(),
    amount: entry.amount.replace(/^(-?)/, '$1123456'),
    balance: entry.balance.replace(/^(-?)/, '$1123456'),
  })),
  open: buyerStatement.open.map((item) => ({
    ...item,
    agreement: 'QUILLBACK-2026-HIGH-MOISTURE-000000000123',
    amount: item.amount.replace(/^(-?)/, '$1123456'),
    open: item.open.replace(/^(-?)/, '$1123456'),
  })),
  held: buyerStatement.held.map((held) => ({
    ...held,
    agreement: 'QUILLBACK-2026-HIGH-MOISTURE-000000000123',
    ticket: 'SCALEHOUSE-NORTH-2026-000000000000000001-REWEIGHED',
    by: LONG,
    reason: REASON.repeat(3).trim(),
  })),
};
