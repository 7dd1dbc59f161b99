/**
 * Files that a seller attached to a lot, and who was invited to see it.
 */
import type { FileKind } from '../../domain/files/file-kind.ts';
import type { Transaction } from '../open-store.ts';

export interface LotFileRow {
  readonly id: string;
  readonly name: string;
  readonly kind: FileKind;
  readonly size: number;
  /** ISO 8601, UTC. */
  readonly recordedAt: string;
}

/** A lot's files without their bytes, in the order in which they came. */
export async function readLotFiles(tx: Transaction, lotId: string): Promise<readonly LotFileRow[]> {
  return await tx.$queryRawUnsafe<LotFileRow[]>(
    `SELECT id, name, kind, octet_length(bytes)::int AS size,
       to_char(recorded_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "recordedAt"
     FROM lot_file WHERE lot_id = $1::uuid ORDER BY recorded_at, id`,
    lotId,
  );
}

/** One file with its bytes; undefined where the lot has none such that the transaction may see. */
export async function readLotFile(
  tx: Transaction,
  { lotId, fileId }: { readonly lotId: string; readonly fileId: string },
): Promise<{ readonly name: string; readonly kind: string; readonly bytes: Uint8Array } | undefined> {
  const file = await tx.lotFile.findFirst({
    where: { id: fileId, lotId },
    select: { name: true, kind: true, bytes: true },
  });
  return file ?? undefined;
}

export interface NewLotFile {
  readonly id: string;
  readonly lotId: string;
  readonly name: string;
  readonly kind: FileKind;
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** SHA-256, in hexadecimal; the database works it out again. */
  readonly fingerprint: string;
  readonly recordedAt: Date;
  readonly recordedBy: string;
}

export async function insertLotFile(tx: Transaction, file: NewLotFile): Promise<void> {
  await tx.lotFile.create({ data: file, select: { id: true } });
}

/** Names of the parties that were invited to a lot, as its seller may see them. */
export async function readGuestNames(tx: Transaction, lotId: string): Promise<readonly string[]> {
  const rows = await tx.$queryRawUnsafe<{ name: string }[]>(
    `SELECT p.name FROM lot_guest g JOIN party p ON p.id = g.party_id WHERE g.lot_id = $1::uuid ORDER BY p.name`,
    lotId,
  );
  return rows.map(({ name }) => name);
}
