/**
 * Where tests keep their records: in memory where the system has a folder that is, since most of their time is spent
 * writing.
 */
import { statfsSync } from 'node:fs';
import { tmpdir } from 'node:os';

const IN_MEMORY = '/dev/shm';
/** Some forty megabytes a record, and not all are gone at once. */
const ENOUGH_BYTES = 4 * 2 ** 30;

function isRoomy(folder: string): boolean {
  try {
    const { bavail, bsize } = statfsSync(folder);
    return bavail * bsize >= ENOUGH_BYTES;
  } catch {
    return false;
  }
}

export const RECORDS_FOLDER = isRoomy(IN_MEMORY) ? IN_MEMORY : tmpdir();
