/**
 * What waits, oldest first, and what the reader can do about it; their own matters before the other side's.
 */
import { mayDo, type Role } from '../../domain/parties/permissions.ts';
import type { WaitingGroup } from '../../usecases/loads/read-waiting.ts';
import { RecordForm } from '../forms/record-form.tsx';
import { settle } from './load-actions.ts';
import { waitingStep, waitingWords } from './waiting-words.ts';

export interface WaitingListProps {
  readonly groups: readonly WaitingGroup[];
  readonly role: Role;
  readonly requestKey: () => string;
  /** Whether each must say which agreement it is about. */
  readonly isOneOfMany: boolean;
  /** Whether the first is what to do first on its page. */
  readonly isLeading?: boolean;
}

export function WaitingList({ groups, role, requestKey, isOneOfMany, isLeading = true }: WaitingListProps) {
  if (groups.length === 0) return null;
  const ordered = [...groups.filter(({ yours }) => yours), ...groups.filter(({ yours }) => !yours)];
  return (
    <section aria-label="What waits">
      <ul className="waiting">
        {ordered.map((group, index) => (
          <li key={`${group.agreementId} ${group.what}`} className={group.yours ? 'yours' : 'theirs'}>
            <p>{waitingWords(group, isOneOfMany)}</p>
            <WaitingStep
              group={group}
              role={role}
              requestKey={requestKey}
              isFirst={isLeading && index === 0 && role !== 'scale-operator'}
            />
          </li>
        ))}
      </ul>
    </section>
  );
}

function WaitingStep({
  group,
  role,
  requestKey,
  isFirst,
}: {
  readonly group: WaitingGroup;
  readonly role: Role;
  readonly requestKey: () => string;
  /** Only what to do first has the strong colour. */
  readonly isFirst: boolean;
}) {
  if (group.what === 'ready') {
    if (!mayDo(role, 'settle')) return null;
    return (
      <RecordForm
        action={settle}
        submit={group.loads === 1 ? 'Settle it' : `Settle all ${group.loads}`}
        requestKey={requestKey()}
        quiet={!isFirst}
        fields={[{ kind: 'hidden', name: 'agreement', value: group.agreementId }]}
      />
    );
  }
  const step = waitingStep(group);
  if (!step || !mayDo(role, step.verb)) return null;
  return (
    <a className={group.yours && isFirst ? 'act-link' : 'plain-link'} href={step.to}>
      {step.label}
    </a>
  );
}
