/**
 * The tokens of the caller's party: which there are, when each was last used, and the end of one.
 */
import { type Scope, scopesAmong } from '../../domain/parties/scopes.ts';
import { isId } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { Refusal } from '../refusal.ts';

export interface TokenView {
  readonly id: string;
  readonly name: string;
  readonly scopes: readonly Scope[];
  /** Who made it, as long as they are in the party. */
  readonly madeBy: string | undefined;
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly madeAt: number;
  /** To the minute; undefined where it never was. */
  readonly usedAt: number | undefined;
}

/** Those that are in use, the newest first. Refuses `not-allowed`. */
export async function readTokens(context: Context): Promise<readonly TokenView[]> {
  permit(context, 'keep-token');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const members = await tx.member.findMany({
      where: { endedAt: null },
      select: { person: { select: { id: true, name: true } } },
    });
    const names = new Map(members.map(({ person }) => [person.id, person.name]));
    const tokens = await tx.apiToken.findMany({ where: { revokedAt: null }, orderBy: { createdAt: 'desc' } });
    return tokens.map(({ id, name, scopes, createdBy, createdAt, usedAt }) => ({
      id,
      name,
      scopes: scopesAmong(scopes.split(' ')),
      madeBy: names.get(createdBy),
      madeAt: createdAt.getTime(),
      usedAt: usedAt?.getTime(),
    }));
  });
}

/**
 * Ends a token: its next request is refused. Ending it twice is no fault. Refuses `not-allowed`, `not-found`.
 */
export async function revokeToken(
  context: Context,
  { tokenId }: { readonly tokenId: string },
): Promise<void> {
  permit(context, 'keep-token');
  const { caller, store, newId, now } = context;
  const { partyId, personId } = caller;
  await store.forParty(partyId, async (tx) => {
    const token = isId(tokenId) ? await tx.apiToken.findUnique({ where: { id: tokenId } }) : null;
    if (!token) throw new Refusal('not-found', 'Your party has no such token.');
    if (token.revokedAt !== null) return;
    await tx.apiToken.updateMany({
      where: { id: tokenId, revokedAt: null },
      data: { revokedAt: new Date(now()) },
    });
    await tx.audit.create({
      data: { id: newId(), partyId, personId, verb: 'revoke-token', subject: tokenId },
    });
  });
}
