/**
 * Who asks: the session of this request, looked up in the record each time, so that one that was ended is out at once;
 * and the party as which it acts.
 */
import { cookies, headers } from 'next/headers';
import { getServerSession } from 'next-auth';
import { cache } from 'react';
import type { Caller, Context, Tools } from '../../usecases/context.ts';
import { type Membership, readSession, type SessionView } from '../../usecases/people/read-session.ts';
import { Refusal } from '../../usecases/refusal.ts';
import { callerByToken } from '../../usecases/tokens/caller-by-token.ts';
import { requireOwnOrigin } from './answer.ts';
import { authOptions } from './auth-options.ts';
import { originOf } from './client-address.ts';
import { openedRecord } from './record.ts';
import { refusalOf } from './refused.ts';

export const PARTY_COOKIE = 'huskledger-party';

/** Undefined where nobody is signed in. */
export const currentSession = cache(async (): Promise<SessionView | undefined> => {
  const session: unknown = await getServerSession(await authOptions());
  const sessionId = (session as { readonly sessionId?: unknown } | null)?.sessionId;
  if (typeof sessionId !== 'string') return undefined;
  try {
    return await readSession(await openedRecord(), { sessionId });
  } catch (error) {
    if (refusalOf(error)?.code === 'not-signed-in') return undefined;
    throw error;
  }
});

/** The party that was chosen, else the first by name; undefined for somebody in none. */
export async function currentMembership(session: SessionView): Promise<Membership | undefined> {
  const chosen = (await cookies()).get(PARTY_COOKIE)?.value;
  const { memberships } = session;
  return memberships.find(({ partyId }) => partyId === chosen) ?? memberships[0];
}

/** Refuses `not-signed-in`, and `not-allowed` for somebody who is in no party. */
export async function currentContext(): Promise<Context> {
  const session = await currentSession();
  if (!session) throw new Refusal('not-signed-in', 'Sign in first.');
  const membership = await currentMembership(session);
  if (!membership) {
    throw new Refusal('not-allowed', 'You are in no party here. Ask an owner for an invitation.');
  }
  const { partyId, role } = membership;
  return contextFor(await openedRecord(), { personId: session.personId, partyId, role });
}

/**
 * Who asks under /api/v1: a program by the token that it shows, else whoever is signed in. No page of another site can
 * send a token along, so only requests that lean on a cookie must come from a page of ours; `changes` says whether this
 * one changes anything. Refuses as `currentContext` and `callerByToken`.
 */
export async function apiContext(
  request: Request,
  { changes }: { readonly changes: boolean },
): Promise<Context> {
  const secret = /^bearer +(\S+) *$/i.exec(request.headers.get('authorization') ?? '')?.[1];
  if (secret === undefined) {
    if (changes) requireOwnOrigin(request);
    return await currentContext();
  }
  const record = await openedRecord();
  const { address } = originOf(request.headers);
  return contextFor(record, await callerByToken(record, { secret, address }));
}

function contextFor({ store, now, newId }: Tools, caller: Caller): Context {
  return { store, now, newId, caller };
}

/** How the reader writes numbers, as the browser says; "en-US" where it does not. */
export async function readerLocale(): Promise<string> {
  const wanted = (await headers()).get('accept-language')?.split(',')[0]?.split(';')[0]?.trim();
  if (!wanted || wanted === '*') return 'en-US';
  try {
    return Intl.NumberFormat.supportedLocalesOf(wanted)[0] ?? 'en-US';
  } catch {
    return 'en-US';
  }
}
