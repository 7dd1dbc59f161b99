/**
 * What is owed in all for settled loads, less what is paid, by whom to whom, in words that both sides read alike.
 */
import type { AgreementSummary } from '../../usecases/agreements/read-agreement-list.ts';

/** "Tarn Hollow Dairy owes Quillback Acres 241,310.52 USD for settled loads, less what is paid." */
export function owedWords({
  owed,
  currency,
  seller,
  buyer,
}: Pick<AgreementSummary, 'owed' | 'currency' | 'seller' | 'buyer'>): string {
  if (/^[0.,]*$/.test(owed)) return 'Nothing is owed for settled loads.';
  const isBack = owed.startsWith('−');
  const [debtor, creditor] = isBack ? [seller, buyer] : [buyer, seller];
  return `${debtor} owes ${creditor} ${owed.replace('−', '')} ${currency} for settled loads, less what is paid.`;
}
