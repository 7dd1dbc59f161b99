/**
 * The first run: the first person, with a party of their own. Only while the record has nobody.
 */
import type { Tools } from '../context.ts';
import { Refusal } from '../refusal.ts';
import { hashPassword } from './password.ts';
import { readPerson } from './person-input.ts';

export interface FirstPerson {
  readonly name: string;
  readonly email: string;
  readonly password: string;
  readonly party: string;
}

/** Whether nobody has come yet. */
export async function isFirstRun({ store }: Tools): Promise<boolean> {
  return await store.atDoor(async (tx) => (await tx.person.findFirst({ select: { id: true } })) === null);
}

/** Refuses `first-run-over` once there is somebody, and `bad-input`. */
export async function createFirstPerson(
  tools: Tools,
  { password, ...given }: FirstPerson,
): Promise<{ readonly personId: string; readonly partyId: string }> {
  const { name, email, party } = readPerson(['name', 'email', 'party'], given);
  const passwordHash = await hashPassword(password);
  const [personId, partyId, memberId] = [tools.newId(), tools.newId(), tools.newId()];
  await tools.store.atDoor(async (tx) => {
    // Two that come first at once must not both be the first.
    await tx.$queryRaw`SELECT pg_advisory_xact_lock(7421907312)::text`;
    if (await tx.person.findFirst({ select: { id: true } })) {
      throw new Refusal(
        'first-run-over',
        'This record has its first person already. Ask them for an invitation.',
      );
    }
    await tx.person.create({ data: { id: personId, name, email, passwordHash } });
    await tx.party.create({ data: { id: partyId, name: party } });
    await tx.member.create({ data: { id: memberId, personId, partyId, role: 'owner' } });
  });
  return { personId, partyId };
}
