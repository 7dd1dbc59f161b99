/**
 * Keeps a file of an agreement: what it is, is told from its bytes, and its fingerprint is its name in the record.
 */
import { createHash } from 'node:crypto';
import {
  FILE_KIND_NAMES,
  FILE_KINDS,
  fileKind,
  fileName,
  MOST_FILE_BYTES,
} from '../../domain/files/file-kind.ts';
import type { Transaction } from '../../store/open-store.ts';
import { insertFile } from '../../store/rows/file-rows.ts';
import type { Recorded } from '../../store/rows/result-rows.ts';
import { badInput } from '../read-input-rows.ts';

export interface GivenFile {
  /** As it was called where it came from; for people alone. */
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** SHA-256 of a file's bytes, in hexadecimal. */
export function fileFingerprint({ bytes }: Pick<GivenFile, 'bytes'>): string {
  return createHash('sha256').update(bytes).digest('hex');
}

/** Returns the fingerprint. Refuses `bad-input` for what is empty, too long, or neither PDF nor picture. */
export async function keepFile(tx: Transaction, file: GivenFile, recorded: Recorded): Promise<string> {
  const { bytes } = file;
  const kind = fileKind(bytes);
  if (!kind) {
    const known = FILE_KINDS.map((name) => FILE_KIND_NAMES[name].word).join(', ');
    const message = `must be a file of one of these kinds by its content: ${known}`;
    throw badInput([{ column: 'report', message }]);
  }
  if (bytes.length > MOST_FILE_BYTES) {
    throw badInput([{ column: 'report', message: 'must be at most 10 MB' }]);
  }
  const fingerprint = fileFingerprint(file);
  const name = fileName(file.name, kind);
  await insertFile(tx, { fingerprint, name, kind, bytes: new Uint8Array(bytes) }, recorded);
  return fingerprint;
}
