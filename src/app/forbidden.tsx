/**
 * A page that the reader's role does not have.
 */
import { ROLE_NAMES } from '../domain/parties/permissions.ts';
import { currentMembership, currentSession } from './server/current-caller.ts';

export const metadata = { title: 'Not for your role' };

export default async function Forbidden() {
  const session = await currentSession();
  const membership = session && (await currentMembership(session));
  return (
    <div className="narrow">
      <h1>This is not for your role</h1>
      <p>
        {membership
          ? `You are ${ROLE_NAMES[membership.role]} for ${membership.party}, and this is done by others there. Ask an owner of ${membership.party} for another role.`
          : 'You are in no party here. Ask an owner of a farm or dairy for an invitation.'}
      </p>
      <p>
        <a href="/loads">To the loads</a>
      </p>
    </div>
  );
}
