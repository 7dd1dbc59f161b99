/**
 * What was just done, carried in the address to the next page with a seal, so that no link of somebody else's can claim
 * that something was recorded.
 */
import { createHmac, timingSafeEqual } from 'node:crypto';
import { type Asked, addressOf, askedText } from '../place/asked.ts';
import { currentSession } from './current-caller.ts';
import { sessionSecret } from './session-secret.ts';

/** The address, with what it will tell its reader once they are there. */
export async function tellingAddress(
  path: string,
  parts: Readonly<Record<string, string | undefined>>,
  told: string,
): Promise<string> {
  return addressOf(path, { ...parts, told, seal: await sealOf(told) });
}

/** What the address tells, if it was sealed here for this person. */
export async function toldBy(asked: Asked): Promise<string | undefined> {
  const [told, seal] = [askedText(asked, 'told'), askedText(asked, 'seal')];
  if (told === undefined || seal === undefined) return undefined;
  const [given, right] = [Buffer.from(seal), Buffer.from(await sealOf(told))];
  return given.length === right.length && timingSafeEqual(given, right) ? told : undefined;
}

async function sealOf(told: string): Promise<string> {
  const session = await currentSession();
  return createHmac('sha256', await sessionSecret())
    .update(`told ${session?.personId} ${told}`)
    .digest('base64url');
}
