/**
 * Scales in their versions. A party sees its own, and those of parties that it has an agreement with.
 */
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';

export interface ScaleVersionRow {
  readonly scaleId: string;
  readonly partyId: string;
  readonly partyName: string;
  readonly version: number;
  readonly name: string;
  readonly place: string;
  readonly unit: string;
  readonly capacity: string;
  readonly division: string;
  readonly accuracyClass: string;
  readonly isLegalForTrade: boolean;
  readonly testedOn: string | null;
  readonly testDueOn: string | null;
  readonly certificate: string | null;
  /** ISO 8601, UTC. */
  readonly recordedAt: string;
}

/** Every version of the scales that the transaction may see, or of some: the oldest scale first, each scale’s oldest version first. */
export async function readScaleVersions(
  tx: Transaction,
  ids?: readonly string[],
): Promise<readonly ScaleVersionRow[]> {
  return await tx.$queryRawUnsafe<ScaleVersionRow[]>(
    `SELECT s.id AS "scaleId", s.party_id AS "partyId", p.name AS "partyName", v.version, v.name, v.place, v.unit,
       v.capacity::text, v.division::text, v.accuracy_class AS "accuracyClass",
       v.is_legal_for_trade AS "isLegalForTrade", v.tested_on::text AS "testedOn",
       v.test_due_on::text AS "testDueOn", v.certificate,
       to_char(v.recorded_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "recordedAt"
     FROM scale s
     JOIN scale_version v ON v.scale_id = s.id
     JOIN party p ON p.id = s.party_id
     WHERE $1::uuid[] IS NULL OR s.id = ANY($1::uuid[])
     ORDER BY s.created_at, s.id, v.version`,
    ids ?? null,
  );
}

export interface ScaleStamp {
  readonly recordedAt: string;
  readonly recordedBy: string;
}

export async function insertScale(
  tx: Transaction,
  { scaleId, partyId }: Pick<ScaleVersionRow, 'scaleId' | 'partyId'>,
  { recordedAt }: ScaleStamp,
): Promise<void> {
  await insertRows(tx, 'scale', {
    id: ['uuid', [scaleId]],
    party_id: ['uuid', [partyId]],
    created_at: ['timestamptz', [recordedAt]],
  });
}

export async function insertScaleVersion(
  tx: Transaction,
  row: Omit<ScaleVersionRow, 'partyId' | 'partyName' | 'recordedAt'>,
  { recordedAt, recordedBy }: ScaleStamp,
): Promise<void> {
  await insertRows(tx, 'scale_version', {
    scale_id: ['uuid', [row.scaleId]],
    version: ['int', [row.version]],
    name: ['text', [row.name]],
    place: ['text', [row.place]],
    unit: ['text', [row.unit]],
    capacity: ['numeric', [row.capacity]],
    division: ['numeric', [row.division]],
    accuracy_class: ['text', [row.accuracyClass]],
    is_legal_for_trade: ['boolean', [String(row.isLegalForTrade)]],
    tested_on: ['date', [row.testedOn]],
    test_due_on: ['date', [row.testDueOn]],
    certificate: ['text', [row.certificate]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}
