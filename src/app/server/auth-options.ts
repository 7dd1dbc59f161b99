/**
 * next-auth: who may vouch for a person, and what its cookie holds: the id of a session in the record, and nothing
 * that could be trusted without looking there.
 */
import type { NextAuthOptions } from 'next-auth';
import credentials from 'next-auth/providers/credentials';
import type { OAuthConfig } from 'next-auth/providers/oauth';
import type { OidcProvider } from '../../environment/environment.ts';
import { signIn, signInByProvider } from '../../usecases/people/sign-in.ts';
import { clientOrigin } from './client-address.ts';
import { openedRecord } from './record.ts';
import { refusalOf } from './refused.ts';
import { sessionSecret } from './session-secret.ts';
import { isSecure, settings } from './settings.ts';

export const SESSION_SECONDS = 30 * 86_400;
export const OIDC = 'oidc';

export function sessionCookieName(): string {
  return `${isSecure() ? '__Secure-' : ''}huskledger-session`;
}

export function csrfCookieName(): string {
  return `${isSecure() ? '__Host-' : ''}huskledger-csrf`;
}

/** How each cookie of ours is kept. */
export function cookieRules() {
  return { httpOnly: true, sameSite: 'lax', path: '/', secure: isSecure() } as const;
}

export async function authOptions(): Promise<NextAuthOptions> {
  const { oidc } = settings();
  const options = cookieRules();
  return {
    secret: await sessionSecret(),
    session: { strategy: 'jwt', maxAge: SESSION_SECONDS },
    useSecureCookies: isSecure(),
    cookies: {
      sessionToken: { name: sessionCookieName(), options },
      csrfToken: { name: csrfCookieName(), options },
    },
    pages: { signIn: '/sign-in', error: '/sign-in' },
    logger: { error: () => {}, warn: () => {}, debug: () => {} },
    providers: [passwordProvider(), ...(oidc ? [oidcProvider(oidc)] : [])],
    callbacks: {
      signIn: async ({ user, account, profile }) => {
        if (account?.provider !== OIDC) return true;
        return await admitByProvider(user, profile as OidcProfile | undefined);
      },
      jwt: ({ token, user }) => (user ? { sessionId: user.id } : token),
      session: ({ session, token }) => ({ ...session, sessionId: token['sessionId'] }),
    },
  };
}

/** Other programs sign in here; the page of ours has a form of its own, which works without scripts. */
function passwordProvider() {
  return credentials({
    credentials: { email: {}, password: {} },
    authorize: async (given) => {
      const record = await openedRecord();
      const { email = '', password = '' } = given ?? {};
      try {
        const { sessionId } = await signIn(record, { email, password, ...(await clientOrigin()) });
        return { id: sessionId };
      } catch (error) {
        if (refusalOf(error)) return null;
        throw error;
      }
    },
  });
}

interface OidcProfile {
  readonly sub: string;
  readonly email?: string;
  readonly email_verified?: boolean;
}

function oidcProvider({ issuer, clientId, clientSecret, name }: OidcProvider): OAuthConfig<OidcProfile> {
  return {
    id: OIDC,
    name,
    type: 'oauth',
    wellKnown: `${issuer.replace(/\/$/, '')}/.well-known/openid-configuration`,
    issuer,
    clientId,
    clientSecret,
    authorization: { params: { scope: 'openid email' } },
    idToken: true,
    checks: ['pkce', 'state', 'nonce'],
    profile: ({ sub, email }) => ({ id: sub, email: email ?? null }),
  };
}

/** Opens a session in the record for whom the provider vouches, or leads back to the sign-in page with the reason. */
async function admitByProvider(
  user: { id: string },
  profile: OidcProfile | undefined,
): Promise<boolean | string> {
  // An address that the provider has not verified could be anybody's.
  if (!profile?.email || profile.email_verified === false) return '/sign-in?refused=unverified';
  try {
    const record = await openedRecord();
    const { sessionId } = await signInByProvider(record, {
      email: profile.email,
      ...(await clientOrigin()),
    });
    user.id = sessionId;
    return true;
  } catch (error) {
    if (refusalOf(error)) return '/sign-in?refused=unknown';
    throw error;
  }
}
