/**
 * Reports that a seller attaches to a lot: taken by what they are, never by what they are called, and handed to whoever
 * may see the lot.
 */
import { createHash } from 'node:crypto';
import {
  FILE_KIND_NAMES,
  FILE_KINDS,
  type FileKind,
  fileKind,
  fileName,
  MOST_FILE_BYTES,
} from '../../domain/files/file-kind.ts';
import { insertLotFile, readLotFile, readLotFiles } from '../../store/rows/lot-file-rows.ts';
import { lockLot } from '../../store/rows/offer-rows.ts';
import { isId } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { badInput } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { findLot, findOwnLot, refuseSold } from './find-lot.ts';

export interface FileToAttach {
  readonly lotId: string;
  /** As it was called where it came from. */
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly key?: string;
}

const MOST_FILES = 40;

/**
 * Keeps a file with a lot, for everyone who may see the lot. Returns its id, which a test may name. Refuses
 * `not-allowed`, `not-found`, `not-yours`, `lot-closed` for a lot that is sold, and `bad-input` for a file that is empty,
 * too long or none of the kinds that are kept.
 */
export async function attachFile(
  context: Context,
  { lotId, name, bytes, key }: FileToAttach,
): Promise<{ readonly fileId: string }> {
  permit(context, 'keep-lot');
  const own = Uint8Array.from(bytes);
  const fingerprint = createHash('sha256').update(own).digest('hex');
  const asked = { verb: 'attach-file', subject: lotId, key, input: { name, fingerprint } };
  return await doOnce(context, asked, async (tx) => {
    const kind = keptKind(bytes);
    if (isId(lotId)) await lockLot(tx, lotId);
    refuseSold(await findOwnLot(tx, context, lotId));
    if ((await readLotFiles(tx, lotId)).length >= MOST_FILES) {
      throw badInput([{ column: 'file', message: `would be one too many: a lot keeps ${MOST_FILES}` }]);
    }
    const fileId = context.newId();
    await insertLotFile(tx, {
      id: fileId,
      lotId,
      name: fileName(name, kind),
      kind,
      bytes: own,
      fingerprint,
      recordedAt: new Date(context.now()),
      recordedBy: context.caller.personId,
    });
    return { fileId };
  });
}

function keptKind(bytes: Uint8Array): FileKind {
  const wrong = (message: string) => badInput([{ column: 'file', message }]);
  if (bytes.length === 0) throw wrong('is empty; choose the report');
  if (bytes.length > MOST_FILE_BYTES) throw wrong('is longer than 10 MB; send a smaller scan');
  const kind = fileKind(bytes);
  if (!kind) {
    const kinds = FILE_KINDS.map((known) => FILE_KIND_NAMES[known].word).join(', ');
    throw wrong(`is none of these, by its content: ${kinds}. Save it as one of them`);
  }
  return kind;
}

export interface KeptFile {
  readonly name: string;
  readonly kind: FileKind;
  readonly bytes: Uint8Array;
}

/** Refuses `not-allowed`, and `not-found` where there is none that the caller's party may see. */
export async function readFile(
  context: Context,
  { lotId, fileId }: { readonly lotId: string; readonly fileId: string },
): Promise<KeptFile> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    await findLot(tx, lotId);
    const file = isId(fileId) ? await readLotFile(tx, { lotId, fileId }) : undefined;
    const kind = FILE_KINDS.find((known) => known === file?.kind);
    if (!file || !kind) throw new Refusal('not-found', 'There is no such file.');
    return { name: file.name, kind, bytes: file.bytes };
  });
}
