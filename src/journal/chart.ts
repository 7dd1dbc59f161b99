/**
 * The accounts of an agreement as each side's bookkeeper knows them: a number, a name, and on which side of its books an
 * increase stands. The numbers are ours, in the usual order of a farm's books (1 assets, 2 debts, 4 income, 5 to 7 costs:
 * common practice, no source); a bookkeeper maps them to its own.
 */
import type { Account } from './accounts.ts';

export interface ChartAccount {
  readonly code: string;
  readonly name: string;
}

/** The accounts that hold money; the others count feed. */
export type MoneyAccount = Exclude<
  Account,
  'feed-delivered' | 'feed-waiting' | 'feed-settled' | 'feed-refused'
>;

const SELLER: Readonly<Record<MoneyAccount, ChartAccount>> = {
  paid: { code: '1000', name: 'Bank' },
  invoices: { code: '1200', name: 'Accounts receivable' },
  held: { code: '1205', name: 'Accounts receivable, questioned' },
  'buyer-owes-seller': { code: '1210', name: 'Settled deliveries, not invoiced' },
  carried: { code: '1220', name: 'Brought forward from sealed seasons' },
  'on-account': { code: '2100', name: 'Customer money on account' },
  advances: { code: '2110', name: 'Advances invoiced ahead of settlement' },
  'worth-of-feed': { code: '4000', name: 'Feed sales' },
  adjustments: { code: '4050', name: 'Season adjustments' },
  discounts: { code: '4090', name: 'Discounts given' },
  interest: { code: '4900', name: 'Interest charged' },
  fees: { code: '4910', name: 'Fees charged' },
  deductions: { code: '5100', name: 'Deductions and assessments' },
};

const BUYER: Readonly<Record<MoneyAccount, ChartAccount>> = {
  paid: { code: '1000', name: 'Bank' },
  'on-account': { code: '1310', name: 'Money on account with supplier' },
  advances: { code: '1320', name: 'Advances invoiced ahead of settlement' },
  invoices: { code: '2000', name: 'Accounts payable' },
  held: { code: '2005', name: 'Accounts payable, questioned' },
  'buyer-owes-seller': { code: '2010', name: 'Settled deliveries, not invoiced' },
  carried: { code: '2020', name: 'Brought forward from sealed seasons' },
  'worth-of-feed': { code: '5000', name: 'Feed purchases' },
  adjustments: { code: '5050', name: 'Season adjustments' },
  discounts: { code: '5090', name: 'Discounts taken' },
  deductions: { code: '5190', name: 'Deductions kept or owed to payees' },
  interest: { code: '7100', name: 'Interest paid' },
  fees: { code: '7110', name: 'Fees paid' },
};

/** An account of money by one side's chart; undefined for one that counts feed. */
export function chartAccount(account: string, side: 'seller' | 'buyer'): ChartAccount | undefined {
  const chart: Readonly<Record<string, ChartAccount>> = side === 'seller' ? SELLER : BUYER;
  return Object.hasOwn(chart, account) ? chart[account] : undefined;
}

/** Whether an amount posted is a debit in a side's books: what is above zero is the seller's debit and the buyer's credit. */
export function isDebit(amount: string, side: 'seller' | 'buyer'): boolean {
  return amount.startsWith('-') === (side === 'buyer');
}

/** All accounts of one side, by number. */
export function chartOf(side: 'seller' | 'buyer'): readonly ChartAccount[] {
  return Object.values(side === 'seller' ? SELLER : BUYER).sort((a, b) => (a.code < b.code ? -1 : 1));
}
