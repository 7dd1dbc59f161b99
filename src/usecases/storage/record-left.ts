/**
 * Writes down what was left in a silo when the feeding of a day was done: nothing, a weight, or a volume and its density.
 */
import type { Context } from '../context.ts';
import { type EntryToWrite, type WrittenEntry, writeEntry } from './write-entry.ts';

/** Refuses as `writeEntry` does. */
export async function recordLeft(context: Context, entry: EntryToWrite): Promise<WrittenEntry> {
  return await writeEntry(context, 'left', entry);
}
