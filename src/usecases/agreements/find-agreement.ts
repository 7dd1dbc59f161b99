/**
 * An agreement of the caller's, read and ready to be worked with.
 */
import { checkAgreement } from '../../domain/agreement/check-agreement.ts';
import type { Agreement } from '../../domain/agreement/document.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type AgreementRow, readAgreement } from '../../store/rows/agreement-rows.ts';
import { Refusal } from '../refusal.ts';

export interface FoundAgreement {
  readonly row: AgreementRow;
  readonly agreement: Agreement;
}

/** Refuses `not-found` where there is none that the caller's party is part of. */
export async function findAgreement(tx: Transaction, id: string): Promise<FoundAgreement> {
  const row = isId(id) ? await readAgreement(tx, id) : undefined;
  if (!row) throw new Refusal('not-found', 'There is no such agreement.');
  return { row, agreement: agreementOf(row.document) };
}

/** Whether a text can be an id at all; any other would be an error of the database's. */
export function isId(text: string): boolean {
  return /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(text);
}

/** A document that was checked before it was recorded. Throws where it no longer is an agreement. */
export function agreementOf(document: string): Agreement {
  const { agreement } = checkAgreement(JSON.parse(document));
  if (!agreement) throw new Error('A recorded agreement no longer reads as one');
  return agreement;
}
