/**
 * The way to the OpenID Connect provider, as a plain link: next-auth wants a form with a token of its own for it, which
 * is made and sent here.
 */
import { createHash, randomBytes } from 'node:crypto';
import { cookies } from 'next/headers';
import { NextRequest } from 'next/server';
import NextAuth from 'next-auth';
import { backTo } from '../../server/ask.ts';
import { authOptions, cookieRules, csrfCookieName, OIDC } from '../../server/auth-options.ts';
import { sessionSecret } from '../../server/session-secret.ts';
import { publicAddress, settings } from '../../server/settings.ts';

export async function GET(request: NextRequest): Promise<Response> {
  const environment = settings();
  if (!environment.oidc) return new Response('There is no such page.\n', { status: 404 });
  const token = randomBytes(32).toString('hex');
  const proof = createHash('sha256')
    .update(`${token}${await sessionSecret()}`)
    .digest('hex');
  (await cookies()).set(csrfCookieName(), `${token}|${proof}`, cookieRules());
  const back = backTo(request.nextUrl.searchParams.get('back') ?? undefined);
  const form = new URLSearchParams({
    csrfToken: token,
    callbackUrl: new URL(back, publicAddress(environment)).toString(),
  });
  const asForm = new NextRequest(new URL(`/api/auth/signin/${OIDC}`, publicAddress(environment)), {
    method: 'POST',
    headers: { 'content-type': 'application/x-www-form-urlencoded' },
    body: form.toString(),
  });
  const params = Promise.resolve({ nextauth: ['signin', OIDC] });
  return await NextAuth(asForm, { params }, await authOptions());
}
