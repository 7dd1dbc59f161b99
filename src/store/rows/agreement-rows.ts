/**
 * Agreements with their current version, as a party may see them.
 */
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';

export interface AgreementRow {
  readonly id: string;
  readonly number: string;
  readonly sellerId: string;
  readonly sellerName: string;
  readonly buyerId: string;
  readonly buyerName: string;
  readonly versionId: string;
  readonly version: number;
  /** Canonical JSON. */
  readonly document: string;
  readonly fingerprint: string;
  /** Both parties have signed its season shut; an adviser or a laboratory sees no seal. */
  readonly isSealed: boolean;
}

const SELECT = `
  SELECT a.id, a.number, a.seller_id AS "sellerId", s.name AS "sellerName", a.buyer_id AS "buyerId",
    b.name AS "buyerName", v.id AS "versionId", v.version, v.document, v.fingerprint,
    EXISTS (SELECT FROM season_seal z WHERE z.agreement_id = a.id) AS "isSealed"
  FROM agreement a
  JOIN party s ON s.id = a.seller_id
  JOIN party b ON b.id = a.buyer_id
  JOIN LATERAL (
    SELECT * FROM agreement_version WHERE agreement_id = a.id ORDER BY version DESC LIMIT 1
  ) v ON true`;

/** All agreements that the transaction may see, by number. */
export async function readAgreements(tx: Transaction): Promise<readonly AgreementRow[]> {
  return await tx.$queryRawUnsafe<AgreementRow[]>(`${SELECT} ORDER BY a.number, a.id`);
}

/** One agreement, or undefined where there is none that the transaction may see. */
export async function readAgreement(tx: Transaction, id: string): Promise<AgreementRow | undefined> {
  const [row] = await tx.$queryRawUnsafe<AgreementRow[]>(`${SELECT} WHERE a.id = $1::uuid`, id);
  return row;
}

/** A version with the date from which it prices; null for the first, and for what was signed elsewhere. */
export interface VersionRow extends Pick<AgreementRow, 'versionId' | 'version' | 'document' | 'fingerprint'> {
  readonly effectiveFrom: string | null;
}

/** Every version of an agreement, oldest first. */
export async function readVersions(tx: Transaction, agreementId: string): Promise<readonly VersionRow[]> {
  return await tx.$queryRawUnsafe<VersionRow[]>(
    `SELECT v.id AS "versionId", v.version, v.document, v.fingerprint, s.effective_from::text AS "effectiveFrom"
     FROM agreement_version v
     LEFT JOIN signing s ON s.agreement_id = v.agreement_id AND s.version_id = v.id
     WHERE v.agreement_id = $1::uuid ORDER BY v.version`,
    agreementId,
  );
}

/** The agreement of two parties by its own number, or undefined. */
export async function findAgreement(
  tx: Transaction,
  of: { readonly sellerId: string; readonly buyerId: string; readonly number: string },
): Promise<AgreementRow | undefined> {
  const [row] = await tx.$queryRawUnsafe<AgreementRow[]>(
    `${SELECT} WHERE a.seller_id = $1::uuid AND a.buyer_id = $2::uuid AND a.number = $3`,
    of.sellerId,
    of.buyerId,
    of.number,
  );
  return row;
}

export interface NewAgreement {
  readonly id: string;
  readonly number: string;
  readonly sellerId: string;
  readonly buyerId: string;
  readonly versionId: string;
  readonly document: string;
  readonly fingerprint: string;
  readonly recordedAt: string;
  readonly recordedBy: string;
}

/** Writes an agreement with its first version. */
export async function insertAgreement(tx: Transaction, agreement: NewAgreement): Promise<void> {
  await insertRows(tx, 'agreement', {
    id: ['uuid', [agreement.id]],
    seller_id: ['uuid', [agreement.sellerId]],
    buyer_id: ['uuid', [agreement.buyerId]],
    number: ['text', [agreement.number]],
  });
  await insertVersion(tx, { ...agreement, agreementId: agreement.id, version: 1 });
}

export interface NewVersion
  extends Pick<NewAgreement, 'versionId' | 'document' | 'fingerprint' | 'recordedAt' | 'recordedBy'> {
  readonly agreementId: string;
  readonly version: number;
}

/** Writes a version of an agreement. */
export async function insertVersion(tx: Transaction, version: NewVersion): Promise<void> {
  await insertRows(tx, 'agreement_version', {
    agreement_id: ['uuid', [version.agreementId]],
    id: ['uuid', [version.versionId]],
    version: ['int', [version.version]],
    document: ['text', [version.document]],
    fingerprint: ['text', [version.fingerprint]],
    recorded_at: ['timestamptz', [version.recordedAt]],
    recorded_by: ['uuid', [version.recordedBy]],
  });
}

/** Makes whoever else would write to the agreement's journal wait until this transaction ends. */
export async function lockAgreement(tx: Transaction, id: string): Promise<void> {
  await tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended(${id}, 0))::text`;
}
