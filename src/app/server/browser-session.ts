/**
 * The cookie by which a browser holds a session of the record, written as next-auth reads it.
 */
import { cookies } from 'next/headers';
import { encode } from 'next-auth/jwt';
import type { FirstPerson } from '../../usecases/people/create-first-person.ts';
import { signIn } from '../../usecases/people/sign-in.ts';
import { cookieRules, SESSION_SECONDS, sessionCookieName } from './auth-options.ts';
import { clientOrigin } from './client-address.ts';
import { PARTY_COOKIE } from './current-caller.ts';
import { openedRecord } from './record.ts';
import { sessionSecret } from './session-secret.ts';

/** Signs in and hands the browser its session. Refuses as `signIn` does. */
export async function signInHere(given: Pick<FirstPerson, 'email' | 'password'>): Promise<void> {
  const { email, password } = given;
  const { sessionId } = await signIn(await openedRecord(), { email, password, ...(await clientOrigin()) });
  const token = await encode({
    token: { sessionId },
    secret: await sessionSecret(),
    maxAge: SESSION_SECONDS,
  });
  (await cookies()).set(sessionCookieName(), token, { ...cookieRules(), maxAge: SESSION_SECONDS });
}

export async function forgetBrowserSession(): Promise<void> {
  const jar = await cookies();
  jar.set(sessionCookieName(), '', { ...cookieRules(), maxAge: 0 });
  jar.set(PARTY_COOKIE, '', { ...cookieRules(), maxAge: 0 });
}

/** From now on this browser acts for that party, if its person is in it. */
export async function rememberParty(partyId: string): Promise<void> {
  (await cookies()).set(PARTY_COOKIE, partyId, { ...cookieRules(), maxAge: SESSION_SECONDS });
}
