/**
 * Who belongs to the party, each with what they may do; an owner can end somebody's part.
 */
import { ROLE_NAMES } from '../../domain/parties/permissions.ts';
import type { MemberView } from '../../usecases/people/members.ts';
import { RecordForm } from '../forms/record-form.tsx';
import { end } from './member-actions.ts';

export interface MemberListProps {
  readonly party: string;
  readonly members: readonly MemberView[];
  readonly mayEnd: boolean;
}

export function MemberList({ party, members, mayEnd }: MemberListProps) {
  return (
    <section aria-labelledby="members">
      <h2 id="members">Who is in {party}</h2>
      <ul className="members">
        {members.map(({ id, name, role }) => (
          <li key={id}>
            <span>
              {name}, {ROLE_NAMES[role]}
            </span>
            {mayEnd && members.length > 1 ? (
              <details>
                <summary>End their part</summary>
                <p>
                  From then on {name} sees nothing of {party}. What they recorded stays.
                </p>
                <RecordForm
                  action={end}
                  submit={`End ${name}’s part`}
                  fields={[{ kind: 'hidden', name: 'member', value: id }]}
                  quiet
                />
              </details>
            ) : null}
          </li>
        ))}
      </ul>
    </section>
  );
}
