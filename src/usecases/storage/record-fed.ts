/**
 * Writes down what was fed from a silo, on a day or over a period.
 */
import type { Context } from '../context.ts';
import { type EntryToWrite, type WrittenEntry, writeEntry } from './write-entry.ts';

/** Refuses as `writeEntry` does. */
export async function recordFed(context: Context, entry: EntryToWrite): Promise<WrittenEntry> {
  return await writeEntry(context, 'fed', entry);
}
