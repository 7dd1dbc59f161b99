/**
 * An agreement that the caller's party may see, read and ready to be worked with, each load by the version it was
 * delivered under.
 */
import { checkAgreement } from '../../domain/agreement/check-agreement.ts';
import type { Agreement } from '../../domain/agreement/document.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type AgreementRow, readAgreement, readVersions } from '../../store/rows/agreement-rows.ts';
import type { Caller } from '../context.ts';
import { Refusal } from '../refusal.ts';

/** One version of an agreement. */
export interface AgreedTerms {
  /** The agreement with this version's document. */
  readonly row: AgreementRow;
  readonly agreement: Agreement;
  /** Loads delivered from this local date are under it; null: from the first load on. */
  readonly effectiveFrom: LocalDate | null;
}

/** The newest version, and all of them. */
export interface FoundAgreement extends AgreedTerms {
  /** Oldest first. */
  readonly versions: readonly AgreedTerms[];
}

/** Refuses `not-found` where there is none that the caller's party may see. */
export async function findAgreement(tx: Transaction, id: string): Promise<FoundAgreement> {
  const row = isId(id) ? await readAgreement(tx, id) : undefined;
  if (!row) throw new Refusal('not-found', 'There is no such agreement.');
  return await withVersions(tx, row);
}

/** An agreement to write to: refuses as `findAgreement`, and `not-yours` where the party advises on it only. */
export async function findOwnAgreement(tx: Transaction, caller: Caller, id: string): Promise<FoundAgreement> {
  const found = await findAgreement(tx, id);
  if (sideOf(found.row, caller) === 'adviser') {
    throw new Refusal('not-yours', 'An adviser reads the agreement; its two parties write to it.');
  }
  return found;
}

/** The agreement of a row with all its versions. */
export async function withVersions(tx: Transaction, row: AgreementRow): Promise<FoundAgreement> {
  const rows = await readVersions(tx, row.id);
  const versions = rows.map(({ effectiveFrom, ...version }): AgreedTerms => {
    const agreement = agreementOf(version.document);
    return { row: { ...row, ...version }, agreement, effectiveFrom: effectiveFrom as LocalDate | null };
  });
  const newest = versions.at(-1);
  if (!newest) throw new Error('A recorded agreement has no version');
  return { ...newest, versions };
}

/** What a load delivered on a local date is priced by: the newest version that was in effect by then. */
export function termsOn({ versions }: FoundAgreement, deliveredOn: LocalDate | string): AgreedTerms {
  const inEffect = versions.filter(
    ({ effectiveFrom }) => effectiveFrom === null || effectiveFrom <= deliveredOn,
  );
  const terms = inEffect.at(-1) ?? versions[0];
  if (!terms) throw new Error('A recorded agreement has no version');
  return terms;
}

/** Which side of an agreement or offer the caller's party is on; neither, and it advises. */
export function sideOf(
  { sellerId, buyerId }: { readonly sellerId: string; readonly buyerId: string },
  { partyId }: Pick<Caller, 'partyId'>,
): 'seller' | 'buyer' | 'adviser' {
  if (partyId === sellerId) return 'seller';
  return partyId === buyerId ? 'buyer' : 'adviser';
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
