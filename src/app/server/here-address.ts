/**
 * Where browsers find this program, for links that leave it.
 */
import { headers } from 'next/headers';
import { settings } from './settings.ts';

/** The address that is set, else the one that this request came to. Without a slash at its end. */
export async function hereAddress(): Promise<string> {
  const { address } = settings();
  if (address !== undefined) return address.replace(/\/+$/, '');
  return `http://${(await headers()).get('host') ?? 'localhost'}`;
}
