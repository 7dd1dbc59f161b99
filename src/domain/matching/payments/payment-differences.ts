/**
 * In what the two rows of a pair of payments differ, by how much, and why.
 */
import { powerOfTen, ratio } from '../../numbers/exact.ts';
import { printFixed } from '../../numbers/printing.ts';
import type { Causes, DateCause, PaymentCause } from '../causes/cause.ts';
import { type Explaining, paymentCauses, paymentDateCauses } from './payment-causes.ts';
import type { ReadPayment } from './payment-list-row.ts';

/** `by` is always mine less the record's; `causes` are the likeliest first. */
export type PaymentDifference =
  | { readonly aspect: 'amount'; readonly by: string; readonly causes: Causes<PaymentCause> }
  | { readonly aspect: 'date'; readonly byDays: number; readonly causes: Causes<DateCause> };

/** Amount first, then day. */
export function paymentDifferences(
  sides: { readonly mine: ReadPayment; readonly record: ReadPayment },
  { decimals, ...explaining }: Explaining & { readonly decimals: number },
): PaymentDifference[] {
  const { mine, record } = sides;
  const found: PaymentDifference[] = [];
  if (mine.units !== record.units) {
    const by = printFixed(ratio(mine.units - record.units, powerOfTen(decimals)), decimals);
    found.push({ aspect: 'amount', by, causes: paymentCauses(sides, explaining) });
  }
  if (mine.day !== record.day) {
    found.push({ aspect: 'date', byDays: mine.day - record.day, causes: paymentDateCauses(sides) });
  }
  return found;
}
