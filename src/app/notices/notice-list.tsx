/**
 * What the party was told of: what is new first, what somebody has marked behind a fold.
 */
import { agoInWords } from '../../domain/dates/day-words.ts';
import { mayDo, type Role } from '../../domain/parties/permissions.ts';
import type { Notices, NoticeView } from '../../usecases/notices/read-notices.ts';
import { RecordForm } from '../forms/record-form.tsx';
import { seen } from './notice-actions.ts';

export interface NoticeListProps {
  readonly notices: Notices;
  readonly role: Role;
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly now: number;
}

export function NoticeList({ notices, role, now }: NoticeListProps) {
  const { unseen, seen: marked } = notices;
  if (unseen.length === 0 && marked.length === 0) return null;
  return (
    <section aria-labelledby="notices">
      <h2 id="notices">What happened</h2>
      {unseen.length === 0 ? <p>Nothing new.</p> : <Sentences list={unseen} now={now} />}
      {unseen.length > 0 && mayDo(role, 'make-offer') ? (
        <RecordForm
          action={seen}
          submit={unseen.length === 1 ? 'Mark it as seen' : `Mark all ${unseen.length} as seen`}
          quiet
          fields={[{ kind: 'hidden', name: 'notices', value: unseen.map(({ id }) => id).join(' ') }]}
        />
      ) : null}
      {marked.length === 0 ? null : (
        <details className="more-fields">
          <summary>Seen before</summary>
          <Sentences list={marked} now={now} />
        </details>
      )}
    </section>
  );
}

function Sentences({ list, now }: { readonly list: readonly NoticeView[]; readonly now: number }) {
  return (
    <ul className="notices">
      {list.map(({ id, words, path, at }) => (
        <li key={id}>
          <a href={path}>{words}</a> <span className="quiet-word">{agoInWords(Date.parse(at), now)}</span>
        </li>
      ))}
    </ul>
  );
}
