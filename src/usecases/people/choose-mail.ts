/**
 * Whether somebody is told by e-mail of what waits for a party they are in: each for themself.
 */
import { type Context, permit } from '../context.ts';

/** Refuses `not-allowed`. */
export async function readMailChoice(context: Context): Promise<boolean> {
  permit(context, 'read');
  const { partyId, personId } = context.caller;
  const member = await context.store.atDoor((tx) =>
    tx.member.findUnique({ where: { partyId_personId: { partyId, personId } }, select: { mail: true } }),
  );
  return member?.mail ?? false;
}

/** Refuses `not-allowed`. */
export async function chooseMail(context: Context, { wanted }: { readonly wanted: boolean }): Promise<void> {
  permit(context, 'read');
  const { partyId, personId } = context.caller;
  await context.store.atDoor((tx) =>
    tx.member.updateMany({ where: { partyId, personId, endedAt: null }, data: { mail: wanted } }),
  );
}
