/**
 * People of the party: who may be invited, by whom, and the end of sign-ins elsewhere.
 */
import { mayDo, ROLE_NAMES, ROLES } from '../../domain/parties/permissions.ts';
import { hasPassword } from '../../usecases/people/change-password.ts';
import { readMailChoice } from '../../usecases/people/choose-mail.ts';
import { readMembers } from '../../usecases/people/members.ts';
import { readTokens } from '../../usecases/tokens/keep-tokens.ts';
import { RecordForm } from '../forms/record-form.tsx';
import { ask, askToSignIn } from '../server/ask.ts';
import { currentMembership, currentSession } from '../server/current-caller.ts';
import { openedRecord } from '../server/record.ts';
import { settings } from '../server/settings.ts';
import { invite, inviteOther } from './invite-actions.ts';
import { MemberList } from './member-list.tsx';
import { MailSection, PasswordSection } from './own-sections.tsx';
import { leaveElsewhere } from './session-actions.ts';
import { TokenPart } from './token-part.tsx';

export const metadata = { title: 'People and sign-ins' };

export default async function PeoplePage() {
  const session = (await currentSession()) ?? (await askToSignIn());
  const membership = await currentMembership(session);
  const mayInvite = membership !== undefined && mayDo(membership.role, 'invite');
  return (
    <div className="narrow">
      <h1>People and sign-ins</h1>
      <p>
        {session.name}, {session.email}
        {membership ? `: ${ROLE_NAMES[membership.role]} for ${membership.party}.` : ': in no party here.'}
      </p>
      {membership ? (
        <p className="hint">
          The number of {membership.party} here, for an agreement’s other side to record it with:{' '}
          <code className="link-shown">{membership.partyId}</code>
        </p>
      ) : null}
      {membership ? (
        <MemberList
          party={membership.party}
          members={await ask(readMembers)}
          mayEnd={mayDo(membership.role, 'end-membership')}
        />
      ) : null}
      {membership && mayInvite ? (
        <>
          <section>
            <h2>Invite somebody into {membership.party}</h2>
            <RecordForm
              action={invite}
              submit="Make an invitation"
              fields={[
                {
                  kind: 'choice',
                  name: 'role',
                  label: 'What they will do',
                  value: 'scale-operator',
                  options: ROLES.map((role) => ({ value: role, label: ROLE_DUTIES[role] })),
                },
              ]}
            />
          </section>
          <section>
            <h2>Invite the other side</h2>
            <p>
              The farm or dairy that you have an agreement with gets a place of its own here, with its own
              owner.
            </p>
            <RecordForm
              action={inviteOther}
              submit="Make their invitation"
              fields={[{ kind: 'text', name: 'party', label: 'Their farm or dairy' }]}
            />
          </section>
        </>
      ) : null}
      {membership && settings().mail ? (
        <MailSection {...membership} wanted={await ask(readMailChoice)} />
      ) : null}
      <PasswordSection hasOne={await hasPassword(await openedRecord(), session)} />
      {membership && mayDo(membership.role, 'keep-token') ? (
        <TokenPart party={membership.party} tokens={await ask(readTokens)} />
      ) : null}
      <section>
        <h2>Signed in elsewhere</h2>
        <p>If a phone was lost, or you forgot to sign out, end every sign-in of yours but this one.</p>
        <RecordForm action={leaveElsewhere} submit="Sign out everywhere else" fields={[]} quiet />
      </section>
    </div>
  );
}

const ROLE_DUTIES = {
  owner: 'Owner: everything, with inviting people',
  bookkeeper: 'Bookkeeper: results, prices, decisions and settling',
  'scale-operator': 'Scale operator: records loads, reads the rest',
  viewer: 'Viewer: reads only',
} as const;
