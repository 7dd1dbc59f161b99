/**
 * The head of every page. The places are links; the party and the way out stand behind the person's name.
 */

import { ROLE_NAMES } from '../../domain/parties/permissions.ts';
import type { Membership, SessionView } from '../../usecases/people/read-session.ts';
import { chooseParty, leave } from '../people/session-actions.ts';

export interface PlaceHeaderProps {
  readonly session: SessionView | undefined;
  readonly membership: Membership | undefined;
  /** How many notices nobody has marked as seen. */
  readonly news: number;
}

export function PlaceHeader({ session, membership, news }: PlaceHeaderProps) {
  return (
    <header className="head">
      <a className="name" href="/">
        Huskledger
        {news === 0 ? null : (
          <span className="news">
            {news} <span className="news-word">new</span>
          </span>
        )}
      </a>
      {session ? (
        <>
          <nav aria-label="Places" className="places">
            <a href="/lots">Feed for sale</a>
            <a href="/agreements">Agreements</a>
            <a href="/loads">Loads</a>
            <a href="/money">Money</a>
          </nav>
          <Who session={session} membership={membership} />
        </>
      ) : (
        <nav aria-label="Places" className="places">
          <a href="/feed">Feed for sale</a>
        </nav>
      )}
    </header>
  );
}

function Who({
  session,
  membership,
}: {
  readonly session: SessionView;
  readonly membership: Membership | undefined;
}) {
  const others = session.memberships.filter(({ partyId }) => partyId !== membership?.partyId);
  return (
    <details className="who">
      <summary>
        <span className="who-name">{membership?.party ?? session.name}</span>
      </summary>
      <div className="who-menu">
        <p>
          {session.name}
          {membership ? `, ${ROLE_NAMES[membership.role]} for ${membership.party}` : ', in no party'}
        </p>
        {others.map(({ partyId, party }) => (
          <form key={partyId} action={chooseParty}>
            <input type="hidden" name="party" value={partyId} />
            <button type="submit" className="quiet">
              Act for {party}
            </button>
          </form>
        ))}
        <a href="/retests">Questions</a>
        <a href="/advice">Advice</a>
        <a href="/scales">Scales</a>
        <a href="/people">People and sign-ins</a>
        <form action={leave}>
          <button type="submit" className="quiet">
            Sign out
          </button>
        </form>
      </div>
    </details>
  );
}
