/**
 * Invitations: a link by which somebody joins a party, once. An owner invites into their own party, or opens a party
 * for the other side of an agreement and hands its first link over.
 */
import { ROLES, type Role } from '../../domain/parties/permissions.ts';
import { type Context, permit } from '../context.ts';
import { badInput } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { readPerson } from './person-input.ts';
import { storedRole } from './role-names.ts';
import { newSecret, secretHash } from './secret-link.ts';

/** An invitation's secret, shown once: it is part of the link and kept nowhere. */
export interface Invitation {
  readonly secret: string;
  readonly partyId: string;
  readonly role: Role;
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly expiresAt: number;
}

const DAYS_VALID = 14;
const DAY = 86_400_000;

/** Invites somebody into the caller's party. Refuses `not-allowed`, `bad-input`. */
export async function inviteMember(
  context: Context,
  { role }: { readonly role: string },
): Promise<Invitation> {
  permit(context, 'invite');
  const known = ROLES.find((name) => name === role);
  if (!known) throw badInput([{ column: 'role', message: `must be one of ${ROLES.join(', ')}` }]);
  return await writeInvitation(context, { partyId: context.caller.partyId, role: known });
}

/**
 * Opens a party for the other side, whose first owner comes by the link; one that an agreement with the caller's party
 * has opened already, and that nobody has joined yet, is not opened twice.
 * Refuses `not-allowed`, `bad-input`, and `partner-there` where the other side is here with people of its own.
 */
export async function invitePartner(
  context: Context,
  given: { readonly party: string },
): Promise<Invitation> {
  permit(context, 'invite');
  const { party: name } = readPerson(['party'], given);
  const known = await findPartner(context, name);
  if (known?.hasPeople) {
    throw new Refusal(
      'partner-there',
      `${name} is here already, with people of its own. They invite whoever is missing.`,
    );
  }
  const partyId = known?.id ?? context.newId();
  if (!known) await context.store.atDoor((tx) => tx.party.create({ data: { id: partyId, name } }));
  return await writeInvitation(context, { partyId, role: 'owner' });
}

/** The party of that name with which the caller's has an agreement. */
async function findPartner(
  { store, caller }: Context,
  name: string,
): Promise<{ readonly id: string; readonly hasPeople: boolean } | undefined> {
  // Seen by the caller's party, so it is a partner of theirs.
  const partner = await store.forParty(caller.partyId, (tx) =>
    tx.party.findFirst({ where: { name, id: { not: caller.partyId } }, select: { id: true } }),
  );
  if (!partner) return undefined;
  const members = await store.atDoor((tx) =>
    tx.member.count({ where: { partyId: partner.id, endedAt: null } }),
  );
  return { id: partner.id, hasPeople: members > 0 };
}

/** A link by which somebody joins a party. */
export async function writeInvitation(
  context: Context,
  { partyId, role }: { readonly partyId: string; readonly role: Role },
): Promise<Invitation> {
  const { personId, partyId: ownParty } = context.caller;
  await context.store.forParty(ownParty, (tx) =>
    tx.audit.create({
      data: {
        id: context.newId(),
        partyId: ownParty,
        personId,
        verb: 'invite',
        subject: `${role} of ${partyId}`,
      },
    }),
  );
  const secret = newSecret();
  const expiresAt = context.now() + DAYS_VALID * DAY;
  await context.store.atDoor((tx) =>
    tx.invitation.create({
      data: {
        id: context.newId(),
        partyId,
        role: storedRole(role),
        tokenHash: secretHash(secret),
        createdBy: context.caller.personId,
        expiresAt: new Date(expiresAt),
      },
    }),
  );
  return { secret, partyId, role, expiresAt };
}
