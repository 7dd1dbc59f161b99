/**
 * Tries to sign in are counted by account and by network address; too many wrong ones must wait.
 */
import type { Transaction } from '../../store/open-store.ts';
import type { Tools } from '../context.ts';
import { Refusal } from '../refusal.ts';

const WINDOW_MS = 15 * 60_000;
const MOST_BY_ACCOUNT = 8;
const MOST_BY_ADDRESS = 40;

/** Refuses `too-many-tries`. */
export async function refuseThrottled(
  tx: Transaction,
  { now }: Tools,
  { email, address }: { readonly email: string; readonly address: string },
): Promise<void> {
  const since = { succeeded: false, at: { gt: new Date(now() - WINDOW_MS) } };
  const byAccount = await tx.signInTry.count({ where: { email, ...since } });
  const byAddress = await tx.signInTry.count({ where: { address, ...since } });
  if (byAccount >= MOST_BY_ACCOUNT || byAddress >= MOST_BY_ADDRESS) {
    throw new Refusal('too-many-tries', 'Too many wrong tries. Wait a quarter of an hour, then try again.');
  }
}
