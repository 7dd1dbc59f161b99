/**
 * Printed files put on disk, whole or not at all, and why that failed in words.
 */
import { mkdir, rename, rm, stat, writeFile } from 'node:fs/promises';
import { WrongUse } from './exit-status.ts';

export interface PrintedFile {
  readonly path: string;
  readonly bytes: Uint8Array;
}

/** Makes a folder in one that is there. To make the whole way to it would hide a mistyped path, and hangs in some. */
export async function makeFolder(path: string): Promise<void> {
  try {
    await mkdir(path);
  } catch (error) {
    const isThere = await stat(path).then(
      (found) => found.isDirectory(),
      () => false,
    );
    if (!isThere) throw cannotWrite(path, error);
  }
}

/** Writes all beside their places and only then renames them, so that a failure leaves what was there before. Throws `WrongUse`. */
export async function writeWhole(files: readonly PrintedFile[]): Promise<void> {
  const partial = (path: string) => `${path}.part`;
  let at = '';
  try {
    for (const { path, bytes } of files) {
      at = path;
      await writeFile(partial(path), bytes);
    }
    for (const { path } of files) {
      at = path;
      await rename(partial(path), path);
    }
  } catch (error) {
    await Promise.all(files.map(({ path }) => rm(partial(path), { force: true }).catch(() => {})));
    throw cannotWrite(at, error);
  }
}

function cannotWrite(path: string, error: unknown): WrongUse {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return new WrongUse(`${path} cannot be written: ${SYSTEM_WORDS[code] ?? String(error)}`);
}

const SYSTEM_WORDS: Readonly<Record<string, string>> = {
  ENOENT: 'the folder that it would stand in is not there; make that first',
  EISDIR: 'it is a folder; name a file that ends in .pdf',
  ENOTDIR: 'a file stands where a folder is needed; end the name in .pdf for one file, or name a folder',
  EEXIST: 'a file stands where a folder is needed; end the name in .pdf for one file, or name a folder',
  EACCES: 'permission is denied',
  EPERM: 'permission is denied',
  EROFS: 'the disk can only be read',
  ENOSPC: 'the disk is full',
};
