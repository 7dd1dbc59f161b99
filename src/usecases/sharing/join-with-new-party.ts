/**
 * Comes by a link as a party that was not here before: a farm, a dairy or an adviser's practice with its first owner, who
 * is new here or signs in already.
 */
import type { Tools } from '../context.ts';
import { admitPerson, writePerson } from '../people/admit-person.ts';
import { readPerson } from '../people/person-input.ts';
import { type Come, comeByLink, findLinked } from './accept-share.ts';

export interface NewParty {
  readonly secret: string;
  /** How the farm, dairy or practice is called. */
  readonly party: string;
  readonly name: string;
  readonly email: string;
  /** A new person's new password, or the password of somebody who is known. */
  readonly password: string;
  /** The network address that the request came from. */
  readonly address: string;
}

/**
 * Refuses `invitation-void`, `lot-closed`, `bad-input`, `too-many-tries`, and `wrong-sign-in` where the e-mail address is
 * known and the password is not its own.
 */
export async function joinWithNewParty(
  tools: Tools,
  { secret, password, address, ...given }: NewParty,
): Promise<Come & { readonly personId: string; readonly partyId: string }> {
  const { party, name, email } = readPerson(['party', 'name', 'email'], given);
  const { link, shared } = await findLinked(tools, secret);
  const admitted = await admitPerson(tools, { name, email, password, address });
  const partyId = tools.newId();
  const adviceId = await tools.store.atDoor(async (tx) => {
    const { personId } = admitted;
    await writePerson(tx, admitted);
    await tx.party.create({ data: { id: partyId, name: party } });
    await tx.member.create({ data: { id: tools.newId(), partyId, personId, role: 'owner' } });
    return await comeByLink(tx, tools, { secret, shared, partyId });
  });
  const { personId } = admitted;
  return { personId, partyId, purpose: link.purpose, subject: shared.subject, adviceId };
}
