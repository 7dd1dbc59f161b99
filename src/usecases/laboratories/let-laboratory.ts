/**
 * Lets a laboratory enter the results of an agreement's samples itself, and ends that. It is told the agreement's number
 * and parties, and sees samples, seals and results: no weight, no price, no term.
 */
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import {
  endLaboratoryAccess,
  insertLaboratoryAccess,
  readLaboratoryAccess,
} from '../../store/rows/laboratory-rows.ts';
import { findOwnAgreement, isId } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { type Invitation, writeInvitation } from '../people/invite.ts';
import { readPerson } from '../people/person-input.ts';
import { Refusal } from '../refusal.ts';
import { readLaboratories } from './read-laboratories.ts';

/**
 * Opens a party for a laboratory and hands out the link by which its first owner comes; one that was let in by this name
 * and that nobody has joined yet gets a new link. Refuses `not-allowed`, `bad-input`, `not-found`, `not-yours`, and
 * `partner-there` where it is in already, with people of its own.
 */
export async function inviteLaboratory(
  context: Context,
  { agreementId, laboratory }: { readonly agreementId: string; readonly laboratory: string },
): Promise<Invitation> {
  permit(context, 'invite');
  const { party: name } = readPerson(['party'], { party: laboratory });
  const known = (await readLaboratories(context, { agreementId })).find(
    (row) => !row.isEnded && row.name === name,
  );
  if (known?.hasPeople) {
    throw new Refusal('partner-there', `${name} is in already, with people of its own.`);
  }
  if (known) return await writeInvitation(context, { partyId: known.partyId, role: 'owner' });
  const partyId = context.newId();
  // Whether the caller may, is asked before a party is opened.
  await context.store.forParty(context.caller.partyId, (tx) =>
    findOwnAgreement(tx, context.caller, agreementId),
  );
  await context.store.atDoor((tx) => tx.party.create({ data: { id: partyId, name } }));
  await letLaboratory(context, { agreementId, partyId });
  return await writeInvitation(context, { partyId, role: 'owner' });
}

/**
 * Lets a laboratory in that is here already; one that is in stays in. Refuses `not-allowed`, `not-found` (also for a
 * party that is not there), `not-yours` for a side of the agreement itself.
 */
export async function letLaboratory(
  context: Context,
  {
    agreementId,
    partyId,
    key,
  }: { readonly agreementId: string; readonly partyId: string; readonly key?: string },
): Promise<{ readonly accessId: string }> {
  permit(context, 'invite');
  const isThere =
    isId(partyId) && (await context.store.atDoor((tx) => tx.party.count({ where: { id: partyId } }))) > 0;
  if (!isThere) throw new Refusal('not-found', 'There is no laboratory of that number here.');
  const asked = { verb: 'let-laboratory', subject: agreementId, key, input: { partyId } };
  return await doOnce(context, asked, async (tx) => {
    const { row } = await findOwnAgreement(tx, context.caller, agreementId);
    if (partyId === row.sellerId || partyId === row.buyerId) {
      throw new Refusal(
        'not-yours',
        'A side of the agreement enters results as itself, not as a laboratory.',
      );
    }
    await lockAgreement(tx, agreementId);
    const open = (await readLaboratoryAccess(tx, agreementId)).find(
      (access) => access.partyId === partyId && !access.isEnded,
    );
    if (open) return { accessId: open.id };
    const accessId = context.newId();
    const label = `${row.number}: ${row.sellerName} and ${row.buyerName}`;
    await insertLaboratoryAccess(tx, { agreementId, id: accessId, partyId, label, since: stamp(context) });
    return { accessId };
  });
}

/** Ends it; what the laboratory reported stays. Refuses `not-allowed`, `not-found`, `not-yours`. */
export async function endLaboratory(
  context: Context,
  {
    agreementId,
    accessId,
    key,
  }: { readonly agreementId: string; readonly accessId: string; readonly key?: string },
): Promise<{ readonly ended: true }> {
  permit(context, 'invite');
  const asked = { verb: 'end-laboratory', subject: agreementId, key, input: { accessId } };
  return await doOnce(context, asked, async (tx) => {
    await findOwnAgreement(tx, context.caller, agreementId);
    const access = (await readLaboratoryAccess(tx, agreementId)).find(({ id }) => id === accessId);
    if (!access) throw new Refusal('not-found', 'There is no such laboratory in this agreement.');
    await endLaboratoryAccess(tx, { agreementId, id: accessId, endedAt: stamp(context) });
    return { ended: true } as const;
  });
}
