/**
 * Says which of an agreement's loads went into a silo: all of the days from one to another, or some of their tickets.
 */
import type { Context } from '../context.ts';
import { type EntryToWrite, type WrittenEntry, writeEntry } from './write-entry.ts';

/** Refuses as `writeEntry` does. */
export async function fillSilo(context: Context, entry: EntryToWrite): Promise<WrittenEntry> {
  return await writeEntry(context, 'filling', entry);
}
