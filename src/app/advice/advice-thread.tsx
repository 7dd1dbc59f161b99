/**
 * What the two parties of one advice wrote to one another, with the adviser's drafts, and what the reader can add.
 */
import { randomUUID } from 'node:crypto';
import { agoInWords } from '../../domain/dates/day-words.ts';
import { mayDo, type Role } from '../../domain/parties/permissions.ts';
import type { AdviceView } from '../../usecases/advice/read-advice.ts';
import { RecordForm } from '../forms/record-form.tsx';
import { end, note } from './advice-actions.ts';

export interface AdviceThreadProps {
  readonly advice: AdviceView;
  readonly role: Role;
  /** The page that it stands on. */
  readonly back: string;
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly now: number;
  /** Whether the note can be written at once; else behind a fold. */
  readonly isOpen?: boolean;
}

export function AdviceThread({ advice, role, back, now, isOpen = false }: AdviceThreadProps) {
  const { id, other, isOurs, notes, drafts, endedAt } = advice;
  const mayWrite = endedAt === null && mayDo(role, 'advise');
  const ago = (when: string) => agoInWords(Date.parse(when), now);
  const hidden = [
    { kind: 'hidden', name: 'advice', value: id },
    { kind: 'hidden', name: 'back', value: back },
  ] as const;
  return (
    <div className="advice-thread">
      {drafts.length === 0 ? null : (
        <ul className="drafts">
          {drafts.map((draft) => (
            <li key={draft.id}>
              {draft.name} drafted terms {ago(draft.writtenAt)}:{' '}
              <a href={`/advice/${id}/drafts/${draft.id}`}>read {isOurs ? 'them' : 'what they change'}</a>
            </li>
          ))}
        </ul>
      )}
      {notes.length === 0 ? null : (
        <ol className="notes">
          {notes.map((written) => (
            <li key={`${written.writtenAt} ${written.text}`} className={written.isOurs ? 'ours' : 'theirs'}>
              <p className="quiet-word">
                {written.name}
                {written.isOurs ? '' : ` of ${other}`}, {ago(written.writtenAt)}
              </p>
              <p className="note-text">{written.text}</p>
            </li>
          ))}
        </ol>
      )}
      {mayWrite ? (
        <>
          <details className="more-fields" open={isOpen}>
            <summary>Write to {other}</summary>
            <RecordForm
              action={note}
              submit="Send the note"
              requestKey={randomUUID()}
              quiet
              fields={[
                ...hidden,
                {
                  kind: 'lines',
                  name: 'text',
                  label: `A note to ${other}`,
                  hint: `Only you and ${other} read it. Nobody else ever sees it.`,
                },
              ]}
            />
          </details>
          <details className="more-fields">
            <summary>End the advice</summary>
            <p>
              {isOurs
                ? `From then on you see nothing new of it. What you and ${other} wrote stays with both of you.`
                : `From then on ${other} sees nothing of it any more. What you both wrote stays with both of you.`}
            </p>
            <RecordForm action={end} submit={`End it with ${other}`} fields={hidden} quiet />
          </details>
        </>
      ) : null}
    </div>
  );
}
