/**
 * A payment as a form or a program gives it.
 */
import type { LocalDate } from '../dates/local-date.ts';
import type { Money } from '../settlement/line.ts';
import type { Row } from '../tables/row.ts';
import { parseMinorUnits } from './minor-units.ts';
import { SPREADS } from './spread.ts';

export const PAYMENT_METHODS = ['check', 'transfer', 'cash', 'other'] as const;
export type PaymentMethod = (typeof PAYMENT_METHODS)[number];

export const PAYMENT_COLUMNS = {
  required: ['amount', 'paid_on', 'method'],
  optional: ['reference', 'spread', 'made_out_to', 'past_lien'],
} as const;

export interface PaymentGiven {
  /** Minor units, above zero. */
  readonly amount: bigint;
  readonly paidOn: LocalDate;
  readonly method: PaymentMethod;
  readonly reference: string | null;
  readonly spread: (typeof SPREADS)[number];
  readonly madeOutTo: 'seller' | 'jointly';
  readonly pastLien: string | null;
}

/** An amount of money above zero in a column, or undefined where the row has a fault there. */
function moneyCell(row: Row, column: string, money: Money): bigint | undefined {
  const text = row.text(column);
  const amount = parseMinorUnits(text, money);
  if (amount !== undefined && amount > 0n) return amount;
  return row.fault(
    column,
    `must be an amount above 0 with at most ${money.decimals} decimals, like 1250${money.decimals > 0 ? `.${'0'.repeat(money.decimals)}` : ''} (no commas or currency); found ${JSON.stringify(text)}`,
  );
}

/** A payment, or undefined where the row has faults. The oldest invoice is served first where nothing else is said. */
export function readPaymentRow(row: Row, money: Money): PaymentGiven | undefined {
  const amount = moneyCell(row, 'amount', money);
  const paidOn = row.date('paid_on');
  const method = row.word('method', PAYMENT_METHODS);
  const reference = row.optionalName('reference') || null;
  const spread = row.text('spread') === '' ? 'oldest-first' : row.word('spread', SPREADS);
  const madeOutTo =
    row.text('made_out_to') === '' ? 'seller' : row.word('made_out_to', ['seller', 'jointly']);
  const pastLien = row.optionalName('past_lien') || null;
  if (row.problems.length > 0 || amount === undefined || !paidOn || !method || !spread || !madeOutTo) {
    return undefined;
  }
  return { amount, paidOn, method, reference, spread, madeOutTo, pastLien };
}
