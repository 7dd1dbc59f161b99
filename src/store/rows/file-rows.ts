/**
 * Files of an agreement: reports and photos, by the fingerprint of their bytes.
 */
import type { Transaction } from '../open-store.ts';
import type { Recorded } from './result-rows.ts';

export interface FileRow {
  /** SHA-256 of the bytes. */
  readonly fingerprint: string;
  readonly name: string;
  readonly kind: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** One that is there already, the same bytes, stays as it is. */
export async function insertFile(
  tx: Transaction,
  { fingerprint, name, kind, bytes }: FileRow,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  // Without naming the key: a laboratory may add a file, and see none.
  await tx.$executeRaw`INSERT INTO record_file (agreement_id, fingerprint, name, kind, bytes, recorded_at, recorded_by)
    VALUES (${agreementId}::uuid, ${fingerprint}, ${name}, ${kind}, ${bytes}, ${recordedAt}::timestamptz, ${recordedBy}::uuid)
    ON CONFLICT DO NOTHING`;
}

/** A file, or undefined where there is none that the transaction may see. */
export async function readFile(
  tx: Transaction,
  { agreementId, fingerprint }: { readonly agreementId: string; readonly fingerprint: string },
): Promise<FileRow | undefined> {
  const [row] = await tx.$queryRawUnsafe<FileRow[]>(
    'SELECT fingerprint, name, kind, bytes FROM record_file WHERE agreement_id = $1::uuid AND fingerprint = $2',
    agreementId,
    fingerprint,
  );
  return row;
}

/** Files whose bytes are not those of their fingerprint, and reports and photos that a row names and that are not there. */
export async function readOddFiles(
  tx: Transaction,
  agreementId: string,
): Promise<readonly { readonly fingerprint: string; readonly isThere: boolean }[]> {
  return await tx.$queryRawUnsafe(
    `SELECT fingerprint, true AS "isThere" FROM record_file
     WHERE agreement_id = $1::uuid AND fingerprint <> encode(sha256(bytes), 'hex')
     UNION
     SELECT n.named, false FROM (
       SELECT report AS named FROM result WHERE agreement_id = $1::uuid
       UNION SELECT photo FROM load WHERE agreement_id = $1::uuid
       UNION SELECT photo FROM load_version WHERE agreement_id = $1::uuid
       UNION SELECT report FROM retest_figure WHERE agreement_id = $1::uuid
     ) n
     WHERE n.named IS NOT NULL
       AND NOT EXISTS (SELECT FROM record_file f WHERE f.agreement_id = $1::uuid AND f.fingerprint = n.named)
     ORDER BY 1`,
    agreementId,
  );
}

/** Those of some fingerprints that are files of the agreement. */
export async function readFingerprints(
  tx: Transaction,
  agreementId: string,
  fingerprints: readonly string[],
): Promise<ReadonlySet<string>> {
  const rows = await tx.$queryRawUnsafe<{ fingerprint: string }[]>(
    'SELECT fingerprint FROM record_file WHERE agreement_id = $1::uuid AND fingerprint = ANY($2::text[])',
    agreementId,
    fingerprints,
  );
  return new Set(rows.map(({ fingerprint }) => fingerprint));
}
