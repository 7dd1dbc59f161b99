/**
 * An invitation: somebody joins a party by the link that they were handed, once.
 */
import { ROLE_NAMES } from '../../../domain/parties/permissions.ts';
import { readInvitation } from '../../../usecases/people/join-party.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { openedRecord } from '../../server/record.ts';
import { refusalOf } from '../../server/refused.ts';
import { join } from './join.ts';

export const metadata = { title: 'Invitation' };

export default async function JoinPage({
  params,
}: {
  readonly params: Promise<{ readonly secret: string }>;
}) {
  const { secret } = await params;
  const invitation = await invited(secret);
  if (typeof invitation === 'string') {
    return (
      <div className="narrow">
        <h1>This invitation is over</h1>
        <p>{invitation}</p>
      </div>
    );
  }
  return (
    <div className="narrow">
      <h1>Join {invitation.party}</h1>
      <p>
        You are invited as {ROLE_NAMES[invitation.role]}. If you sign in here already, give your own e-mail
        address and password; otherwise choose a password.
      </p>
      <RecordForm
        action={join}
        submit={`Join ${invitation.party}`}
        fields={[
          { kind: 'hidden', name: 'secret', value: secret },
          { kind: 'text', name: 'name', label: 'Your name', autoComplete: 'name' },
          { kind: 'text', name: 'email', label: 'E-mail address', keys: 'email', autoComplete: 'username' },
          {
            kind: 'password',
            name: 'password',
            label: 'Password',
            hint: 'A new one has 10 characters or more.',
            autoComplete: 'new-password',
          },
        ]}
      />
    </div>
  );
}

async function invited(secret: string) {
  try {
    return await readInvitation(await openedRecord(), { secret });
  } catch (error) {
    const refused = refusalOf(error);
    if (!refused) throw error;
    return refused.message;
  }
}
