/**
 * How a payment is called.
 */
import type { PaymentFact } from '../../journal/money-facts.ts';

const METHODS: Readonly<Record<string, string>> = {
  check: 'Check',
  transfer: 'Transfer',
  cash: 'Cash payment',
  other: 'Payment',
};

/** "Check 1043", "Transfer", "Cash payment". */
export function paymentName({ method, reference }: Pick<PaymentFact, 'method' | 'reference'>): string {
  const name = METHODS[method] ?? 'Payment';
  return reference === null ? name : `${name} ${reference}`;
}
