/**
 * A link by which another party comes: to see a lot, or to advise. Whoever opens it learns who gave it and for what, and
 * no more before they have come.
 */
import { mayDo, ROLE_NAMES } from '../../../domain/parties/permissions.ts';
import { readShare, type ShareView } from '../../../usecases/sharing/read-share.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { currentMembership, currentSession } from '../../server/current-caller.ts';
import { openedRecord } from '../../server/record.ts';
import { refusalOf } from '../../server/refused.ts';
import { accept, joinAnew } from './come.ts';

export const metadata = { title: 'Invitation' };

interface ComeParams {
  readonly params: Promise<{ readonly secret: string }>;
}

export default async function ComePage({ params }: ComeParams) {
  const { secret } = await params;
  const share = await shared(secret);
  if (typeof share === 'string') {
    return (
      <div className="narrow">
        <h1>This link is over</h1>
        <p>{share}</p>
      </div>
    );
  }
  const session = await currentSession();
  const membership = session && (await currentMembership(session));
  const isAdviser = share.purpose === 'adviser';
  return (
    <div className="narrow">
      <h1>
        {isAdviser
          ? `${share.party} asks for your advice on ${share.words}`
          : `${share.party} shows you ${share.words}`}
      </h1>
      <p>{isAdviser ? ADVISING : LOOKING}</p>
      {membership ? (
        <ForParty membership={membership} secret={secret} verb={isAdviser ? 'advise' : 'make-offer'} />
      ) : (
        <Anew share={share} secret={secret} isSignedIn={session !== undefined} />
      )}
    </div>
  );
}

const ADVISING =
  'You read it, try the formula on loads, write notes that only they see, and draft terms for them. You sign nothing and bind nobody. Either of you can end it.';
const LOOKING = 'You see what the feed is, its tests and the asking formula, and you may make an offer.';

interface ForPartyProps {
  readonly membership: NonNullable<Awaited<ReturnType<typeof currentMembership>>>;
  readonly secret: string;
  readonly verb: 'advise' | 'make-offer';
}

function ForParty({ membership, secret, verb }: ForPartyProps) {
  const { party, role } = membership;
  if (!mayDo(role, verb)) {
    return (
      <p>
        You are {ROLE_NAMES[role]} for {party}. An owner or bookkeeper of {party} opens this link and accepts;
        it stays good until then.
      </p>
    );
  }
  return (
    <>
      <RecordForm
        action={accept}
        submit={`Accept for ${party}`}
        fields={[{ kind: 'hidden', name: 'secret', value: secret }]}
      />
      <p className="hint">
        The link works once. For another farm, dairy or practice of yours, choose it first in the menu at the
        top.
      </p>
    </>
  );
}

interface AnewProps {
  readonly share: ShareView;
  readonly secret: string;
  readonly isSignedIn: boolean;
}

function Anew({ share, secret, isSignedIn }: AnewProps) {
  const what = share.purpose === 'adviser' ? 'practice' : 'farm or dairy';
  return (
    <>
      {isSignedIn ? null : (
        <section>
          <h2>Your {what} is here already</h2>
          <p>
            <a className="plain-link" href={`/sign-in?back=${encodeURIComponent(`/come/${secret}`)}`}>
              Sign in and come back
            </a>
          </p>
        </section>
      )}
      <section>
        <h2>Your {what} is new here</h2>
        <RecordForm
          action={joinAnew}
          submit="Join and accept"
          fields={[
            { kind: 'hidden', name: 'secret', value: secret },
            { kind: 'text', name: 'party', label: `Your ${what}`, autoComplete: 'organization' },
            { kind: 'text', name: 'name', label: 'Your name', autoComplete: 'name' },
            { kind: 'text', name: 'email', label: 'E-mail address', keys: 'email', autoComplete: 'username' },
            {
              kind: 'password',
              name: 'password',
              label: 'Password',
              hint: 'A new one has 10 characters or more. If you sign in here already, give your own.',
              autoComplete: 'new-password',
            },
          ]}
        />
      </section>
    </>
  );
}

async function shared(secret: string): Promise<ShareView | string> {
  try {
    return await readShare(await openedRecord(), { secret });
  } catch (error) {
    const refused = refusalOf(error);
    if (!refused) throw error;
    return refused.message;
  }
}
