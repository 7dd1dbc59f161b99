/**
 * Laboratories that enter results of an agreement's samples themselves, and what they see of it.
 */
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';

export interface LaboratoryAccessRow {
  readonly agreementId: string;
  readonly id: string;
  readonly partyId: string;
  /** What the laboratory is told of the agreement. */
  readonly label: string;
  /** ISO 8601, UTC. */
  readonly since: string;
  readonly isEnded: boolean;
}

const SELECT = `SELECT agreement_id AS "agreementId", id, party_id AS "partyId", label,
    to_char(since AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS since, ended_at IS NOT NULL AS "isEnded"
  FROM laboratory_access`;

/** The laboratories of an agreement, first let first. */
export async function readLaboratoryAccess(
  tx: Transaction,
  agreementId: string,
): Promise<readonly LaboratoryAccessRow[]> {
  return await tx.$queryRawUnsafe<LaboratoryAccessRow[]>(
    `${SELECT} WHERE agreement_id = $1::uuid ORDER BY since, id`,
    agreementId,
  );
}

/** The agreements that let a laboratory in now. */
export async function readLaboratoryAgreements(
  tx: Transaction,
  partyId: string,
): Promise<readonly LaboratoryAccessRow[]> {
  return await tx.$queryRawUnsafe<LaboratoryAccessRow[]>(
    `${SELECT} WHERE party_id = $1::uuid AND ended_at IS NULL ORDER BY since, id`,
    partyId,
  );
}

export async function insertLaboratoryAccess(
  tx: Transaction,
  row: Omit<LaboratoryAccessRow, 'isEnded'>,
): Promise<void> {
  await insertRows(tx, 'laboratory_access', {
    agreement_id: ['uuid', [row.agreementId]],
    id: ['uuid', [row.id]],
    party_id: ['uuid', [row.partyId]],
    label: ['text', [row.label]],
    since: ['timestamptz', [row.since]],
  });
}

export async function endLaboratoryAccess(
  tx: Transaction,
  {
    agreementId,
    id,
    endedAt,
  }: { readonly agreementId: string; readonly id: string; readonly endedAt: string },
): Promise<void> {
  await tx.$executeRawUnsafe(
    `UPDATE laboratory_access SET ended_at = $3::timestamptz
     WHERE agreement_id = $1::uuid AND id = $2::uuid AND ended_at IS NULL`,
    agreementId,
    id,
    endedAt,
  );
}

export interface SampleAtLaboratory {
  readonly agreementId: string;
  readonly sample: string;
  /** The seal of its part for the laboratory, where there is one. */
  readonly seal: string | null;
  /** The result that stands, and whether the caller's party entered it. */
  readonly resultId: string | null;
  readonly isOwn: boolean;
}

/**
 * The samples of the agreements that let a laboratory in, as it may see them; those without a result first, and none of them
 * in a sealed season, which takes no result.
 */
export async function readSamplesAtLaboratory(
  tx: Transaction,
  { agreementIds, partyId }: { readonly agreementIds: readonly string[]; readonly partyId: string },
): Promise<readonly SampleAtLaboratory[]> {
  return await tx.$queryRawUnsafe<SampleAtLaboratory[]>(
    `SELECT s.agreement_id AS "agreementId", s.name AS sample, r.id AS "resultId",
       coalesce(r.entered_by = $2::uuid, false) AS "isOwn",
       (SELECT p.seal FROM sample_part p WHERE p.agreement_id = s.agreement_id AND p.sample_id = s.id
          AND p.part = 'laboratory' ORDER BY p.recorded_at DESC, p.id DESC LIMIT 1) AS seal
     FROM sample s
     LEFT JOIN LATERAL (
       SELECT id, entered_by FROM result
       WHERE agreement_id = s.agreement_id AND sample_id = s.id ORDER BY version DESC LIMIT 1) r ON true
     WHERE s.agreement_id = ANY($1::uuid[]) AND (r.id IS NOT NULL OR NOT season_is_sealed(s.agreement_id))
     ORDER BY r.id IS NOT NULL, s.recorded_at, s.name`,
    agreementIds,
    partyId,
  );
}
