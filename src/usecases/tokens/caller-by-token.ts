/**
 * Who a program is by the token that it shows: its party, with the token's scopes and no more than whoever made it may
 * do there today. When they leave the party, it stops.
 */
import { scopesAmong } from '../../domain/parties/scopes.ts';
import type { Transaction } from '../../store/open-store.ts';
import type { Caller, Tools } from '../context.ts';
import { roleOf } from '../people/role-names.ts';
import { secretHash } from '../people/secret-link.ts';
import { refuseThrottled } from '../people/throttle.ts';
import { Refusal } from '../refusal.ts';

/** How often a token's use is noted at most. */
const NOTED_EVERY_MS = 60_000;
const LONGEST_SECRET = 200;

/** Refuses `too-many-tries`, and `wrong-sign-in` for a token that never was, was revoked, or whose maker has left. */
export async function callerByToken(
  tools: Tools,
  { secret, address }: { readonly secret: string; readonly address: string },
): Promise<Caller> {
  const tokenHash = secretHash(secret.slice(0, LONGEST_SECRET));
  // Tries are counted by what was tried, as sign-ins are by account, without keeping what could be used.
  const tried = `token ${secretHash(tokenHash).slice(0, 16)}`;
  const caller = await tools.store.atDoor(async (tx) => {
    await refuseThrottled(tx, tools, { email: tried, address });
    const found = await findCaller(tx, tools, tokenHash);
    if (!found) {
      await tx.signInTry.create({
        data: { id: tools.newId(), email: tried, address, succeeded: false, at: new Date(tools.now()) },
      });
    }
    return found;
  });
  if (!caller) {
    throw new Refusal(
      'wrong-sign-in',
      'This token is not known here any more. An owner of your party can make a new one under “People and sign-ins”.',
    );
  }
  return caller;
}

async function findCaller(tx: Transaction, { now }: Tools, tokenHash: string): Promise<Caller | undefined> {
  const token = await tx.apiToken.findUnique({ where: { tokenHash } });
  if (!token || token.revokedAt !== null) return undefined;
  const { id, partyId, createdBy: personId, scopes, usedAt } = token;
  const member = await tx.member.findUnique({ where: { partyId_personId: { partyId, personId } } });
  if (!member || member.endedAt !== null) return undefined;
  const [moment, latest] = [now(), usedAt?.getTime() ?? Number.NEGATIVE_INFINITY];
  if (moment - latest >= NOTED_EVERY_MS) {
    await tx.apiToken.updateMany({ where: { id }, data: { usedAt: new Date(moment) } });
  }
  return {
    personId,
    partyId,
    role: roleOf(member.role),
    token: { id, scopes: scopesAmong(scopes.split(' ')) },
  };
}
