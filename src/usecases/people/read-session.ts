/**
 * Who a session is, and in which parties; and the end of sessions.
 */
import type { Role } from '../../domain/parties/permissions.ts';
import type { Tools } from '../context.ts';
import { Refusal } from '../refusal.ts';
import { roleOf } from './role-names.ts';

export interface Membership {
  readonly partyId: string;
  readonly party: string;
  readonly role: Role;
}

export interface SessionView {
  readonly sessionId: string;
  readonly personId: string;
  readonly name: string;
  readonly email: string;
  /** By the party's name. */
  readonly memberships: readonly Membership[];
}

/** Refuses `not-signed-in` for a session that ended, was revoked or never was. */
export async function readSession(
  { store, now }: Tools,
  { sessionId }: { readonly sessionId: string },
): Promise<SessionView> {
  return await store.atDoor(async (tx) => {
    const session = await tx.session.findUnique({
      where: { id: sessionId },
      include: { person: { include: { members: { where: { endedAt: null }, include: { party: true } } } } },
    });
    if (!session || session.revokedAt !== null || session.expiresAt.getTime() <= now()) {
      throw new Refusal('not-signed-in', 'Sign in first.');
    }
    const { person } = session;
    const memberships = person.members.map(({ party, role }) => ({
      partyId: party.id,
      party: party.name,
      role: roleOf(role),
    }));
    return {
      sessionId,
      personId: person.id,
      name: person.name,
      email: person.email,
      memberships: memberships.sort((a, b) => (a.party < b.party ? -1 : 1)),
    };
  });
}

/** Ends one session; ending it twice is no fault. */
export async function signOut(
  { store, now }: Tools,
  { sessionId }: { readonly sessionId: string },
): Promise<void> {
  await store.atDoor((tx) =>
    tx.session.updateMany({
      where: { id: sessionId, revokedAt: null },
      data: { revokedAt: new Date(now()) },
    }),
  );
}

/** Ends all other sessions of the person whose session this is. Returns how many. */
export async function signOutElsewhere(
  tools: Tools,
  { sessionId }: { readonly sessionId: string },
): Promise<number> {
  const { personId } = await readSession(tools, { sessionId });
  const { count } = await tools.store.atDoor((tx) =>
    tx.session.updateMany({
      where: { personId, revokedAt: null, id: { not: sessionId } },
      data: { revokedAt: new Date(tools.now()) },
    }),
  );
  return count;
}
