/**
 * Whether the built pages are of the source that lies here: after an update they must be built again.
 */
import { createHash } from 'node:crypto';
import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

/** What the pages are built from. */
const BUILT_FROM = ['src', 'package-lock.json', 'next.config.js', 'tsconfig.next.json'];
const NOTE = join('.next', 'huskledger-built-from');

/** A fingerprint of everything that the pages are built from. */
export async function pagesSource(packageFolder: string): Promise<string> {
  const hash = createHash('sha256');
  for (const name of BUILT_FROM) await addTo(hash, join(packageFolder, name));
  return hash.digest('hex');
}

async function addTo(hash: ReturnType<typeof createHash>, path: string): Promise<void> {
  const names = await readdir(path).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOTDIR') return undefined;
    throw error;
  });
  hash.update(path);
  if (!names) hash.update(await readFile(path));
  else for (const name of names.sort()) await addTo(hash, join(path, name));
}

/** Whether the pages were built, whole, from this source. */
export async function isBuilt(packageFolder: string, source: string): Promise<boolean> {
  const note = await readFile(join(packageFolder, NOTE), 'utf8').catch(() => '');
  return note === source;
}

/** Notes, once a build is whole, what it was built from. */
export async function noteBuilt(packageFolder: string, source: string): Promise<void> {
  await writeFile(join(packageFolder, NOTE), source);
}
