/**
 * A statement as CSV for a spreadsheet: all its sections in one table, told apart by the first column. Amounts keep
 * their sign: above zero is owed to the reader, who is named in the first row.
 */
import type { Ageing, HeldAmount, NotInvoiced, OpenItem, Statement } from '../../domain/money/statement.ts';
import { type SafeCell, safeCsvRow } from '../csv.ts';

const COLUMNS = [
  'section',
  'date',
  'agreement',
  'name',
  'detail',
  'ticket',
  'party',
  'due_on',
  'days_late',
  'loads',
  'amount',
  'open',
  'held',
  'balance',
  'currency',
] as const;

type Column = (typeof COLUMNS)[number];
type Cells = Partial<Record<Column, SafeCell>>;

const AGES: readonly (readonly [keyof Ageing, string])[] = [
  ['notDue', 'not late'],
  ['days1to30', '1 to 30 days late'],
  ['days31to60', '31 to 60 days late'],
  ['days61to90', '61 to 90 days late'],
  ['over90', 'more than 90 days late'],
  ['held', 'held while it is questioned'],
  ['onAccount', 'paid on account and not used yet'],
  ['total', 'balance'],
];

function row(cells: Cells): string {
  return safeCsvRow(COLUMNS.map((column) => cells[column] ?? ''));
}

function figure(text: string | number): SafeCell {
  return { figure: String(text) };
}

function openCells(item: OpenItem): Cells {
  return {
    section: 'open',
    date: item.issuedOn ?? '',
    agreement: item.agreement,
    name: item.name,
    due_on: item.dueOn ?? '',
    days_late: figure(item.daysLate),
    amount: figure(item.amount),
    open: figure(item.open),
    held: figure(item.held),
  };
}

function heldCells(held: HeldAmount): Cells {
  return {
    section: 'held',
    date: held.since,
    agreement: held.agreement,
    name: held.document,
    detail: held.reason,
    ticket: held.ticket ?? '',
    party: held.by,
    held: figure(held.amount),
  };
}

function notInvoicedCells(part: NotInvoiced): Cells[] {
  const { agreement } = part;
  const section = 'not invoiced';
  return [
    {
      section,
      agreement,
      name: 'settled',
      loads: figure(part.settledLoads),
      amount: figure(part.settled),
    },
    {
      section,
      agreement,
      name: 'without a result or a price',
      detail: `an estimate of ${part.valuedLoads} of these loads, not owed`,
      loads: figure(part.unpricedLoads),
      amount: figure(part.provisional),
    },
    {
      section,
      agreement,
      name: 'advances invoiced for loads not settled',
      detail: 'in the balance already',
      amount: figure(part.advances),
    },
  ];
}

function rowsOf(statement: Statement): Cells[] {
  const { of: reader, with: other, from, to, ageing } = statement;
  return [
    {
      section: 'about',
      date: to,
      agreement: statement.agreements.join(' '),
      name: `Statement for ${reader} with ${other}, ${from} to ${to}`,
      detail: `Amounts above zero are owed to ${reader}, amounts below zero to ${other}.`,
    },
    { section: 'opening', date: from, name: 'Opening balance', balance: figure(statement.opening) },
    ...statement.entries.map((entry) => ({
      section: 'entry',
      date: entry.on,
      agreement: entry.agreement,
      name: entry.name,
      detail: entry.detail,
      amount: figure(entry.amount),
      balance: figure(entry.balance),
    })),
    { section: 'closing', date: to, name: 'Closing balance', balance: figure(statement.closing) },
    ...AGES.map(([age, name]) => ({ section: 'ageing', date: to, name, open: figure(ageing[age]) })),
    ...statement.open.map(openCells),
    ...statement.held.map(heldCells),
    ...statement.notInvoiced.flatMap(notInvoicedCells),
    ...statement.liens.map(({ agreement, lender, conditions }) => ({
      section: 'lien',
      agreement,
      party: lender,
      detail: conditions,
    })),
  ];
}

/** The whole file, a header row first. Throws RangeError on an amount that is no decimal. */
export function statementCsv(statement: Statement): string {
  const rows = rowsOf(statement).map((cells) => row({ ...cells, currency: statement.currency }));
  return safeCsvRow(COLUMNS) + rows.join('');
}
