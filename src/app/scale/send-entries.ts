/**
 * Sends what waits, the oldest first, one at a time, from one page at a time. An entry leaves the phone only once the
 * record has answered that it has it; a connection that breaks half way means that it is sent again under the same id.
 */
import { type Entry, type Outcome, outcomeOf, requestOf } from './entry.ts';
import type { EntryStore } from './entry-store.ts';

export type Sending = 'done' | 'no-signal' | 'signed-out' | 'later' | 'busy';

const LONGEST_MS = 30_000;

/** Sends all that waits for `party`; entries that were refused stay as they are. */
export async function sendEntries(store: EntryStore, party: string, onChange: () => void): Promise<Sending> {
  return await navigator.locks.request('huskledger-scale-sending', { ifAvailable: true }, async (lock) => {
    if (!lock) return 'busy';
    for (const entry of await store.waiting()) {
      if (entry.refused !== undefined || entry.party !== party) continue;
      const outcome = await sendOne(entry).catch((): undefined => undefined);
      if (outcome === undefined) return 'no-signal';
      switch (outcome.is) {
        case 'taken':
          await store.markSent(entry, Date.now());
          break;
        case 'refused':
          await store.save({ ...entry, refused: { code: outcome.code, message: outcome.message } });
          break;
        case 'signed-out':
        case 'later':
          return outcome.is;
      }
      onChange();
    }
    return 'done';
  });
}

async function sendOne(entry: Entry): Promise<Outcome> {
  const photo = entry.photo === undefined ? undefined : await sendPhoto(entry, entry.photo);
  if (photo !== undefined && 'is' in photo) return photo;
  const { path, body } = requestOf(
    photo === undefined ? entry : { ...entry, row: { ...entry.row, photo: photo.fingerprint } },
  );
  const answer = await fetch(path, {
    method: 'POST',
    headers: { 'content-type': 'application/json', 'idempotency-key': entry.id },
    body: JSON.stringify(body),
    signal: AbortSignal.timeout(LONGEST_MS),
  });
  return outcomeOf(answer.status, await answer.json().catch(() => null));
}

/** The photo goes first; the record knows it by its content, so that sending it twice keeps one. */
async function sendPhoto(entry: Entry, photo: Blob): Promise<{ readonly fingerprint: string } | Outcome> {
  const answer = await fetch(`/api/v1/agreements/${entry.agreementId}/files?name=ticket-photo`, {
    method: 'POST',
    headers: { 'content-type': photo.type || 'application/octet-stream' },
    body: photo,
    signal: AbortSignal.timeout(LONGEST_MS * 4),
  });
  const body = (await answer.json().catch(() => null)) as { readonly fingerprint?: unknown } | null;
  const outcome = outcomeOf(answer.status, body);
  if (outcome.is !== 'taken') return outcome;
  return typeof body?.fingerprint === 'string' ? { fingerprint: body.fingerprint } : { is: 'later' };
}
