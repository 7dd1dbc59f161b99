/**
 * The record's payments as rows of a list, to be matched with somebody's own.
 */
import type { LocalDate } from '../../domain/dates/local-date.ts';
import type { KnownAmount, PaymentListRow } from '../../domain/matching/payments/payment-list-row.ts';
import type { DocumentKind } from '../../domain/money/money-document.ts';
import { PAYMENT_METHODS } from '../../domain/money/payment-row.ts';
import { printAmount } from '../../domain/settlement/line.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readMoneyRows } from '../../store/rows/money/all-money-rows.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import { moneyOfAgreement } from '../money/money-frame.ts';
import { allocatedOf, countedPayments, signedAmount } from '../money/money-rows.ts';
import { nameOf } from '../money/statement-entries.ts';

/** Every payment that counts, with what may be within its sum; its id is the payment's. */
export async function recordPayments(
  tx: Transaction,
  found: FoundAgreement,
): Promise<readonly PaymentListRow[]> {
  const rows = await readMoneyRows(tx, [found.row.id]);
  const of = moneyOfAgreement(found);
  const { money } = of;
  const names = new Map(rows.documents.map((document) => [document.id, nameOf(document.fact)]));
  const documents = rows.documents.flatMap((document): KnownAmount[] => {
    const because = WITHIN[document.fact.kind as DocumentKind];
    return because ? [{ because, name: nameOf(document.fact), amount: document.fact.payable }] : [];
  });
  return countedPayments(rows).map(({ payment, answer }) => {
    const discounts = allocatedOf(answer.fact.allocated, money)
      .filter(({ discount }) => discount > 0n)
      .map(({ documentId, discount }) => ({ name: names.get(documentId) ?? 'a document', discount }));
    const taken = discounts.map(({ name, discount }) => ({ name: `the discount on ${name}`, discount }));
    if (discounts.length > 1) {
      const discount = discounts.reduce((sum, one) => sum + one.discount, 0n);
      taken.push({ name: `the discounts on ${discounts.length} documents`, discount });
    }
    return {
      id: payment.id,
      reference: payment.fact.reference,
      paidOn: payment.fact.paidOn as LocalDate,
      amount: printAmount(signedAmount(payment, of), money),
      method: PAYMENT_METHODS.find((method) => method === payment.fact.method) ?? null,
      known: [
        ...taken.map(
          ({ name, discount }): KnownAmount => ({
            because: 'discount-taken',
            name,
            amount: printAmount(discount, money),
          }),
        ),
        ...documents,
      ],
    };
  });
}

const WITHIN: Readonly<Partial<Record<DocumentKind, KnownAmount['because']>>> = {
  invoice: 'invoice-within',
  advance: 'invoice-within',
  fee: 'fee-within',
  interest: 'fee-within',
};
