/**
 * A person as a program: signs in at next-auth's own address and asks over HTTP, following nothing by itself.
 */

import type { Person } from './browsers.ts';
import { emailOf, PASSWORD } from './season-record.ts';

export interface Asking {
  readonly method?: 'GET' | 'POST';
  readonly path: string;
  readonly body?: unknown;
  /** In place of JSON. */
  readonly file?: { readonly kind: string; readonly bytes: Uint8Array<ArrayBuffer> };
  readonly headers?: Readonly<Record<string, string>>;
}

export type Ask = (asking: Asking) => Promise<Response>;

/** Nobody in particular. */
export function strangerAt(address: string, cookies: Readonly<Record<string, string>> = {}): Ask {
  return ({ method = 'GET', path, body, file, headers = {} }) =>
    fetch(address + path, {
      method,
      redirect: 'manual',
      headers: {
        cookie: Object.entries(cookies)
          .map(([name, value]) => `${name}=${value}`)
          .join('; '),
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        ...(file === undefined ? {} : { 'content-type': file.kind }),
        ...headers,
      },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      ...(file === undefined ? {} : { body: file.bytes }),
    });
}

export async function askAs({ side, role }: Person, address: string): Promise<Ask> {
  return await askSignedIn(address, { email: emailOf(side, role), password: PASSWORD });
}

/** Somebody by e-mail address and password. */
export async function askSignedIn(
  address: string,
  { email, password }: { readonly email: string; readonly password: string },
): Promise<Ask> {
  const opened = await fetch(`${address}/api/auth/csrf`);
  const { csrfToken } = (await opened.json()) as { csrfToken: string };
  const entered = await fetch(`${address}/api/auth/callback/credentials`, {
    method: 'POST',
    redirect: 'manual',
    headers: { cookie: cookieHeader(cookiesOf(opened)) },
    body: new URLSearchParams({ csrfToken, email, password }),
  });
  const cookies = cookiesOf(entered);
  if (!cookies['huskledger-session']) throw new Error(`${email} could not sign in`);
  return strangerAt(address, cookies);
}

function cookiesOf(response: Response): Record<string, string> {
  return Object.fromEntries(
    response.headers.getSetCookie().map((line) => {
      const [pair = ''] = line.split(';');
      const at = pair.indexOf('=');
      return [pair.slice(0, at), pair.slice(at + 1)];
    }),
  );
}

function cookieHeader(cookies: Readonly<Record<string, string>>): string {
  return Object.entries(cookies)
    .map(([name, value]) => `${name}=${value}`)
    .join('; ');
}
