/**
 * The scale page: one agreement at a time, the weighing, and what waits on the phone. It works with no signal; what is
 * saved goes to the record as soon as there is one.
 */
'use client';

import { useCallback, useEffect, useState } from 'react';
import type { Desk } from './desk.ts';
import type { Entry, SentEntry } from './entry.ts';
import { EntryStore } from './entry-store.ts';
import { type Sending, sendEntries } from './send-entries.ts';
import { WaitingEntries } from './waiting-entries.tsx';
import { WeighingForm } from './weighing-form.tsx';

const RETRY_MS = 20_000;

export function ScaleDesk({ desk }: { readonly desk: Desk }) {
  const [store, setStore] = useState<EntryStore>();
  const [waiting, setWaiting] = useState<readonly Entry[]>([]);
  const [sent, setSent] = useState<readonly SentEntry[]>([]);
  const [sending, setSending] = useState<Sending>('done');
  const [chosen, setChosen] = useState('');

  const refresh = useCallback(async (from: EntryStore) => {
    setWaiting(await from.waiting());
    setSent(await from.sent());
  }, []);
  const send = useCallback(
    async (from: EntryStore) => {
      setSending(await sendEntries(from, desk.partyId, () => void refresh(from)));
      await refresh(from);
    },
    [desk.partyId, refresh],
  );

  useEffect(() => {
    void (async () => {
      const opened = await EntryStore.open();
      setStore(opened);
      setChosen((await opened.remembered('agreement')) ?? '');
      await refresh(opened);
      await send(opened);
    })();
    void navigator.serviceWorker?.register('/scale-worker.js', { scope: '/scale' });
  }, [refresh, send]);

  useEffect(() => {
    if (!store) return;
    const again = () => void send(store);
    const timer = setInterval(again, RETRY_MS);
    window.addEventListener('online', again);
    document.addEventListener('visibilitychange', again);
    return () => {
      clearInterval(timer);
      window.removeEventListener('online', again);
      document.removeEventListener('visibilitychange', again);
    };
  }, [store, send]);

  const agreement = desk.agreements.find(({ id }) => id === chosen) ?? desk.agreements[0];
  if (!agreement) return <p>There is no agreement to weigh for yet. An owner of your party makes one.</p>;
  return (
    <>
      {desk.agreements.length > 1 ? (
        <label className="field" htmlFor="scale-agreement">
          <span>Agreement</span>
          <select
            id="scale-agreement"
            value={agreement.id}
            onChange={(event) => {
              setChosen(event.target.value);
              void store?.remember('agreement', event.target.value);
            }}
          >
            {desk.agreements.map(({ id, number, partner }) => (
              <option key={id} value={id}>
                {number}, {partner}
              </option>
            ))}
          </select>
        </label>
      ) : (
        <p className="quiet-word">
          {agreement.number}, {agreement.partner}
        </p>
      )}
      {store ? (
        <WeighingForm
          key={agreement.id}
          partyId={desk.partyId}
          agreement={agreement}
          scales={desk.scales}
          taken={waiting.flatMap(({ row, agreementId }) =>
            agreementId === agreement.id ? [row['ticket'] ?? ''] : [],
          )}
          onSave={async (entry) => {
            await store.save(entry);
            await refresh(store);
            void send(store);
          }}
        />
      ) : (
        <p>One moment.</p>
      )}
      <WaitingEntries
        partyId={desk.partyId}
        waiting={waiting}
        sent={sent}
        sending={sending}
        onDrop={async (entry) => {
          await store?.drop(entry.id);
          if (store) await refresh(store);
        }}
        onConfirm={async (entry) => {
          const { refused: _, ...again } = entry;
          await store?.save({ ...again, isConfirmed: true });
          if (store) await send(store);
        }}
      />
    </>
  );
}
