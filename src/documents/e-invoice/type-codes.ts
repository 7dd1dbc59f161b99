/**
 * Which UBL document a document about money is, and its code by UNTDID 1001 as EN 16931 takes it (rule BR-CL-01).
 */
import type { DocumentKind, MoneyDocument } from '../../domain/money/money-document.ts';
import { decimal, isNegative } from '../../domain/numbers/exact.ts';

/**
 * 380 commercial invoice, 386 prepayment invoice, 383 debit note, 84 debit note related to financial adjustments
 * (names read in the list of UNTDID 1001 that Peppol BIS Billing 3 publishes), 381 credit note.
 */
const BY_SELLER: Readonly<Record<DocumentKind, string>> = {
  invoice: '380',
  advance: '386',
  'credit-note': '381',
  'debit-note': '383',
  interest: '84',
  fee: '380',
};

/** Whether it goes out as a credit note: it is called so, or what it comes to is owed to the buyer. */
export function isCredit({ kind, totals }: Pick<MoneyDocument, 'kind' | 'totals'>): boolean {
  return kind === 'credit-note' || isNegative(decimal(totals.payable));
}

/** The type code; where the buyer drew it up 389, 527 for a debit note and 261 for a credit note. */
export function typeCode(document: MoneyDocument): string {
  const { kind, issuedBy } = document;
  if (isCredit(document)) return issuedBy === 'buyer' ? '261' : '381';
  if (issuedBy === 'buyer') return kind === 'debit-note' ? '527' : '389';
  return BY_SELLER[kind];
}
