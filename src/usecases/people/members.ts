/**
 * Who belongs to the caller's party, and the end of somebody's part in it.
 */
import type { Role } from '../../domain/parties/permissions.ts';
import { type Context, permit } from '../context.ts';
import { Refusal } from '../refusal.ts';
import { roleOf } from './role-names.ts';

export interface MemberView {
  readonly id: string;
  readonly personId: string;
  readonly name: string;
  readonly role: Role;
}

/** By name. Refuses `not-allowed`. */
export async function readMembers(context: Context): Promise<readonly MemberView[]> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const members = await tx.member.findMany({
      where: { endedAt: null },
      select: { id: true, role: true, person: { select: { id: true, name: true } } },
    });
    return members
      .map(({ id, role, person }) => ({ id, personId: person.id, name: person.name, role: roleOf(role) }))
      .sort((a, b) => a.name.localeCompare(b.name));
  });
}

/**
 * Ends a membership: from the next request on that person is not of the party. What they recorded stays.
 * Refuses `not-allowed`, `not-found`, and `last-owner`, since a party without an owner could let nobody in.
 */
export async function endMembership(
  context: Context,
  { memberId }: { readonly memberId: string },
): Promise<void> {
  permit(context, 'end-membership');
  const { caller, store, newId, now } = context;
  const { partyId, personId } = caller;
  const member = (await readMembers(context)).find(({ id }) => id === memberId);
  if (!member) throw new Refusal('not-found', 'There is no such member of your party.');
  await store.atDoor(async (tx) => {
    // Two owners who end one another at once must not both succeed.
    await tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended(${partyId}, 3))::text`;
    const others = await tx.member.count({
      where: { partyId, role: 'owner', endedAt: null, id: { not: memberId } },
    });
    if (others === 0) {
      throw new Refusal('last-owner', `${member.name} is the last owner. Make somebody else an owner first.`);
    }
    await tx.member.update({ where: { id: memberId }, data: { endedAt: new Date(now()) } });
  });
  await store.forParty(partyId, (tx) =>
    tx.audit.create({
      data: { id: newId(), partyId, personId, verb: 'end-membership', subject: member.personId },
    }),
  );
}
