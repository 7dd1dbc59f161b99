/**
 * The secret that signs sessions: the one that is set, else one made by chance on first use and kept in the data folder
 * for its owner's eyes alone.
 */
import { randomBytes } from 'node:crypto';
import { link, mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { settings } from './settings.ts';

let known: Promise<string> | undefined;

export async function sessionSecret(): Promise<string> {
  const { secret, dataFolder } = settings();
  if (secret !== undefined) return secret;
  known ??= keptSecret(dataFolder);
  return await known;
}

async function keptSecret(folder: string): Promise<string> {
  const path = join(folder, 'session-secret');
  const kept = await readKept(path);
  if (kept !== undefined) return kept;
  await mkdir(folder, { recursive: true, mode: 0o700 });
  const made = randomBytes(32).toString('base64url');
  const draft = `${path}.${process.pid}`;
  await writeFile(draft, made, { mode: 0o600 });
  // Linking fails where another process was first; then its secret counts.
  await link(draft, path).catch((error: NodeJS.ErrnoException) => {
    if (error.code !== 'EEXIST') throw error;
  });
  await rm(draft);
  const first = await readKept(path);
  if (first === undefined) throw new Error(`The session secret ${path} cannot be read back`);
  return first;
}

async function readKept(path: string): Promise<string | undefined> {
  return await readFile(path, 'utf8').catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return undefined;
    throw error;
  });
}
