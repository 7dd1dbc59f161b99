/**
 * The embedded database of a data folder, run by this process and served on a socket in the folder. Whoever calls this
 * holds the folder.
 */
import { access, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { PGlite } from '@electric-sql/pglite';

/** Serves the folder's database on `socket` until what is returned is called. */
export async function ownFolder(folder: string, socket: string): Promise<() => Promise<void>> {
  // Loaded only here: they are large, and most commands do without.
  const [{ PGlite }, { PGLiteSocketServer }] = await Promise.all([
    import('@electric-sql/pglite'),
    import('@electric-sql/pglite-socket'),
  ]);
  const db = await openDatabase(folder, (dataDir) => PGlite.create({ dataDir }));
  await rm(socket, { force: true });
  const server = new PGLiteSocketServer({ db, path: socket, maxConnections: MOST_CONNECTIONS });
  await server.start();
  return async () => {
    await server.stop();
    await db.close();
    await rm(socket, { force: true });
  };
}

/** More at once would wait for one another all the same. */
const MOST_CONNECTIONS = 100;

/** A database that is cut short while it is made looks like one and is none, so it gets its name when it is whole. */
async function openDatabase(folder: string, open: (path: string) => Promise<PGlite>): Promise<PGlite> {
  const path = join(folder, 'database');
  if (!(await isThere(path))) {
    const unfinished = join(folder, 'database-unfinished');
    await rm(unfinished, { recursive: true, force: true });
    const made = await open(unfinished);
    await made.close();
    await rename(unfinished, path);
  }
  return await open(path);
}

async function isThere(path: string): Promise<boolean> {
  return await access(path).then(
    () => true,
    () => false,
  );
}
