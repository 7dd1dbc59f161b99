/**
 * Where entries wait on the phone: IndexedDB, which outlives a closed page, a dead battery and a lost signal.
 */
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { Entry, SentEntry } from './entry.ts';

interface Schema extends DBSchema {
  entries: { key: string; value: Entry; indexes: { savedAt: number } };
  sent: { key: string; value: SentEntry };
  remembered: { key: string; value: string };
}

/** So many of those sent last are shown. */
const SENT_SHOWN = 20;

export class EntryStore {
  readonly #database: IDBPDatabase<Schema>;

  private constructor(database: IDBPDatabase<Schema>) {
    this.#database = database;
  }

  static async open(): Promise<EntryStore> {
    const database = await openDB<Schema>('huskledger-scale', 1, {
      upgrade: (db) => {
        db.createObjectStore('entries', { keyPath: 'id' }).createIndex('savedAt', 'savedAt');
        db.createObjectStore('sent', { keyPath: 'id' });
        db.createObjectStore('remembered');
      },
    });
    // The browser is asked not to throw it away when space runs out; it may refuse.
    await navigator.storage?.persist?.();
    return new EntryStore(database);
  }

  /** Saves an entry, or what became of it. Once this returns it is on the phone's disk. */
  async save(entry: Entry): Promise<void> {
    const transaction = this.#database.transaction('entries', 'readwrite', { durability: 'strict' });
    await transaction.store.put(entry);
    await transaction.done;
  }

  /** In the order in which they were saved. */
  async waiting(): Promise<readonly Entry[]> {
    return await this.#database.getAllFromIndex('entries', 'savedAt');
  }

  /** Takes an entry out that the record has. Both happen, or neither. */
  async markSent(entry: Entry, sentAt: number): Promise<void> {
    const transaction = this.#database.transaction(['entries', 'sent'], 'readwrite');
    await transaction.objectStore('entries').delete(entry.id);
    const { id, kind, row } = entry;
    await transaction.objectStore('sent').put({ id, kind, ticket: row['ticket'] ?? '', sentAt });
    await transaction.done;
  }

  /** Takes an entry out that a person does not want any more. */
  async drop(id: string): Promise<void> {
    await this.#database.delete('entries', id);
  }

  /** Newest first. */
  async sent(): Promise<readonly SentEntry[]> {
    const all = await this.#database.getAll('sent');
    const sorted = all.sort((a, b) => b.sentAt - a.sentAt);
    for (const { id } of sorted.slice(SENT_SHOWN)) await this.#database.delete('sent', id);
    return sorted.slice(0, SENT_SHOWN);
  }

  async remember(what: string, value: string): Promise<void> {
    await this.#database.put('remembered', value, what);
  }

  async remembered(what: string): Promise<string | undefined> {
    return await this.#database.get('remembered', what);
  }
}
