/**
 * Joining a party by an invitation's link: as somebody new, or as somebody who signs in already.
 */
import type { Role } from '../../domain/parties/permissions.ts';
import type { Transaction } from '../../store/open-store.ts';
import type { Tools } from '../context.ts';
import { Refusal } from '../refusal.ts';
import { admitPerson, writePerson } from './admit-person.ts';
import { readPerson } from './person-input.ts';
import { roleOf } from './role-names.ts';
import { secretHash } from './secret-link.ts';

export interface OpenInvitation {
  readonly party: string;
  readonly role: Role;
}

/** What a link invites to. Refuses `invitation-void` for one that is unknown, used or too old. */
export async function readInvitation(
  tools: Tools,
  { secret }: { readonly secret: string },
): Promise<OpenInvitation> {
  return await tools.store.atDoor(async (tx) => {
    const { party, role } = await findOpen(tx, tools, secret);
    return { party: party.name, role: roleOf(role) };
  });
}

export interface Joining {
  readonly secret: string;
  readonly name: string;
  readonly email: string;
  /** A new person's new password, or the password of somebody who is known. */
  readonly password: string;
  /** The network address that the request came from. */
  readonly address: string;
}

/**
 * Joins, and uses the invitation up. Refuses `invitation-void`, `bad-input`, `too-many-tries`, and `wrong-sign-in` where
 * the e-mail address is known and the password is not its own.
 */
export async function joinParty(
  tools: Tools,
  { secret, password, address, ...given }: Joining,
): Promise<{ readonly personId: string; readonly partyId: string }> {
  const { name, email } = readPerson(['name', 'email'], given);
  await tools.store.atDoor((tx) => findOpen(tx, tools, secret));
  const admitted = await admitPerson(tools, { name, email, password, address });
  return await tools.store.atDoor(async (tx) => {
    await tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended(${secretHash(secret)}, 2))::text`;
    const { id, partyId, role } = await findOpen(tx, tools, secret);
    const { personId } = admitted;
    await writePerson(tx, admitted);
    const member = await tx.member.findUnique({ where: { partyId_personId: { partyId, personId } } });
    if (member) await tx.member.update({ where: { id: member.id }, data: { role, endedAt: null } });
    else await tx.member.create({ data: { id: tools.newId(), partyId, personId, role } });
    await tx.invitation.update({
      where: { id },
      data: { usedAt: new Date(tools.now()), usedBy: personId },
    });
    return { personId, partyId };
  });
}

async function findOpen(tx: Transaction, { now }: Tools, secret: string) {
  const found = await tx.invitation.findUnique({
    where: { tokenHash: secretHash(secret) },
    include: { party: true },
  });
  if (!found || found.usedAt !== null || found.expiresAt.getTime() <= now()) {
    throw new Refusal('invitation-void', 'This invitation was used or is too old. Ask for a new one.');
  }
  return found;
}
