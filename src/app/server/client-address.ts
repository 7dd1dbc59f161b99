/**
 * Where a request came from, for counting wrong tries to sign in. Behind a proxy (where HUSKLEDGER_ADDRESS is set) it is
 * the address that the proxy added last to X-Forwarded-For; otherwise the connection's own, since anybody can write
 * that header.
 */
import { headers } from 'next/headers';
import { settings } from './settings.ts';

export const PEER_HEADER = 'x-huskledger-peer';

export async function clientOrigin(): Promise<{ readonly address: string; readonly agent: string }> {
  return originOf(await headers());
}

/** As `clientOrigin`, for headers at hand. */
export function originOf(given: { readonly get: (name: string) => string | null }): {
  readonly address: string;
  readonly agent: string;
} {
  const peer = given.get(PEER_HEADER) ?? 'unknown';
  const forwarded = given.get('x-forwarded-for')?.split(',').at(-1)?.trim();
  const address = settings().address !== undefined && forwarded ? forwarded : peer;
  return { address: address.slice(0, 100), agent: given.get('user-agent') ?? 'unknown' };
}
