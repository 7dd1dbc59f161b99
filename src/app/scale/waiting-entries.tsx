/**
 * What waits on the phone, what the record refused and why, and what it has.
 */
'use client';

import type { Entry, SentEntry } from './entry.ts';
import type { Sending } from './send-entries.ts';

export interface WaitingEntriesProps {
  readonly partyId: string;
  readonly waiting: readonly Entry[];
  readonly sent: readonly SentEntry[];
  readonly sending: Sending;
  readonly onDrop: (entry: Entry) => Promise<void>;
  readonly onConfirm: (entry: Entry) => Promise<void>;
}

export function WaitingEntries({ partyId, waiting, sent, sending, onDrop, onConfirm }: WaitingEntriesProps) {
  const own = waiting.filter(({ party }) => party === partyId);
  const refused = own.filter((entry) => entry.refused !== undefined);
  const open = own.filter((entry) => entry.refused === undefined);
  const others = waiting.length - own.length;
  return (
    <section className="scale-queue" aria-labelledby="scale-queue">
      <h2 id="scale-queue">On this phone</h2>
      <p role="status">{standing(open.length, sending)}</p>
      {others === 0 ? null : (
        <p>
          {others === 1 ? 'One weighing' : `${others} weighings`} of another party of yours: act for it to
          send.
        </p>
      )}
      {refused.length === 0 ? null : (
        <ul className="scale-refused">
          {refused.map((entry) => (
            <li key={entry.id}>
              <p>
                <strong>{nameOf(entry)} was not taken.</strong> {entry.refused?.message}
              </p>
              <div className="scale-answers">
                {entry.refused?.code === 'unusual' ? (
                  <button type="button" className="act" onClick={() => void onConfirm(entry)}>
                    It is right, send it
                  </button>
                ) : null}
                <button
                  type="button"
                  className="quiet"
                  onClick={() => {
                    if (window.confirm(`Throw away ${nameOf(entry)}? The record does not have it.`))
                      void onDrop(entry);
                  }}
                >
                  Throw it away
                </button>
              </div>
            </li>
          ))}
        </ul>
      )}
      {open.length === 0 ? null : (
        <ul>
          {open.map((entry) => (
            <li key={entry.id}>{nameOf(entry)} waits</li>
          ))}
        </ul>
      )}
      {sent.length === 0 ? null : (
        <details>
          <summary>Sent last: {sent[0]?.ticket}</summary>
          <ul>
            {sent.map(({ id, ticket, kind }) => (
              <li key={id}>
                {ticket}
                {kind === 'weigh-in' ? ', gross' : ''}
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

function nameOf({ row, kind }: Entry): string {
  const ticket = `Ticket ${row['ticket'] ?? ''}`;
  const weights = [row['gross'], row['tare']].filter((weight) => weight !== undefined).join(' less ');
  return `${ticket}${kind === 'weigh-in' ? ', gross' : ''} (${weights} ${row['unit'] ?? ''})`.replace(
    ' )',
    ')',
  );
}

function standing(count: number, sending: Sending): string {
  const many = count === 1 ? 'One weighing waits' : `${count} weighings wait`;
  if (count === 0) return 'Nothing waits: the record has all that was saved here.';
  switch (sending) {
    case 'no-signal':
      return `${many} on this phone for a signal. They are safe here.`;
    case 'signed-out':
      return `${many}: you are signed out. Sign in again, and they are sent.`;
    case 'later':
      return `${many}: the record is busy and will be asked again.`;
    case 'busy':
    case 'done':
      return `${many} to be sent.`;
  }
}
