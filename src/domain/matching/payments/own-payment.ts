/**
 * The payments of somebody's own books as rows of a list: what the matched columns hold, held to what comparing needs.
 */
import { type LocalDate, parseLocalDate } from '../../dates/local-date.ts';
import { parseMinorUnits } from '../../money/minor-units.ts';
import type { PaymentMethod } from '../../money/payment-row.ts';
import { isNegative, isZero, negate, parseDecimal } from '../../numbers/exact.ts';
import { printFixed } from '../../numbers/printing.ts';
import type { PaymentListRow } from './payment-list-row.ts';

export type OwnPayment = Omit<PaymentListRow, 'known'>;

/** Whose books they are: a seller's say what it received, a buyer's what it paid. */
export interface OwnBooks {
  readonly side: 'seller' | 'buyer';
  /** Of the currency's minor unit. */
  readonly decimals: number;
}

/** A row before the signs of its list are understood. */
export interface RawPayment {
  readonly row: OwnPayment;
  /** The direction is said in words; else the sign says it. */
  readonly isSaid: boolean;
}

/** The row, or what keeps it from being one, in words. `id` is its line in the file. */
export function readOwnPayment(
  texts: Readonly<Record<string, string>>,
  { id, side, decimals }: OwnBooks & { readonly id: string },
): RawPayment | { readonly wrong: string } {
  const paidOn: LocalDate | undefined = parseLocalDate(texts['date'] ?? '');
  if (!paidOn) return { wrong: 'has no day of payment' };
  const { amount: text, direction: said, method, reference } = texts;
  if (text === undefined) return { wrong: 'has no amount' };
  const amount = parseDecimal(text);
  if (!amount) return { wrong: `has an amount that is no number: ${JSON.stringify(text)}` };
  if (parseMinorUnits(text, { decimals }) === undefined)
    return { wrong: `has an amount with more than ${decimals} decimals: ${text}` };
  if (isZero(amount)) return { wrong: 'has an amount of 0' };
  const direction = said === undefined ? undefined : DIRECTIONS.get(wordOf(said));
  if (said !== undefined && direction === undefined)
    return { wrong: `has the direction ${JSON.stringify(said)}; write paid or received` };
  const size = isNegative(amount) ? negate(amount) : amount;
  const isUsual = direction === (side === 'seller' ? 'received' : 'paid');
  const signed = direction === undefined ? amount : isUsual ? size : negate(size);
  return {
    row: {
      id,
      reference: reference ?? null,
      paidOn,
      amount: printFixed(signed, decimals),
      method: method === undefined ? null : (METHODS.get(wordOf(method)) ?? null),
    },
    isSaid: direction !== undefined,
  };
}

/**
 * The rows with the signs of the record: above zero what the buyer paid. Where no words say the direction and more amounts
 * are below zero than above, as on a payer's bank statement, minus is this list's way of writing the usual direction.
 */
export function withSigns(rows: readonly RawPayment[]): {
  readonly rows: readonly OwnPayment[];
  readonly isMinusUsual: boolean;
} {
  const bySign = rows.filter(({ isSaid }) => !isSaid);
  const below = bySign.filter(({ row }) => row.amount.startsWith('-')).length;
  const isMinusUsual = 2 * below > bySign.length;
  const turned = (amount: string) => (amount.startsWith('-') ? amount.slice(1) : `-${amount}`);
  return {
    rows: rows.map(({ row, isSaid }) =>
      isMinusUsual && !isSaid ? { ...row, amount: turned(row.amount) } : row,
    ),
    isMinusUsual,
  };
}

function wordOf(text: string): string {
  return text
    .toLowerCase()
    .replace(/[^\p{L}+-]+/gu, ' ')
    .trim();
}

function words<Meaning>(of: readonly (readonly [Meaning, string])[]): ReadonlyMap<string, Meaning> {
  return new Map(of.flatMap(([meaning, all]) => all.split(', ').map((word) => [word, meaning] as const)));
}

/** As seen by whoever keeps the books; a bank's debit is money that left the account. */
const DIRECTIONS = words([
  ['received', 'received, in, incoming, credit, cr, deposit, receipt, +'],
  ['paid', 'paid, out, outgoing, debit, dr, withdrawal, sent, -'],
] as const);

const METHODS = words<PaymentMethod>([
  ['check', 'check, cheque, chk, ck, checks'],
  ['transfer', 'transfer, wire, ach, bank transfer, wire transfer, eft, direct deposit'],
  ['cash', 'cash'],
  ['other', 'other'],
]);
