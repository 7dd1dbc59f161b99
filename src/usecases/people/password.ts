/**
 * Passwords, kept as Argon2id with the parameters of the OWASP Password Storage Cheat Sheet (19 MiB of memory, two
 * passes, one lane), as of 2026-11.
 */
import { type Algorithm, hash, verify } from '@node-rs/argon2';
import { badInput } from '../read-input-rows.ts';

const PARAMETERS = { algorithm: 2 satisfies Algorithm, memoryCost: 19_456, timeCost: 2, parallelism: 1 };

/** NIST SP 800-63B asks for 8 at least where a password stands alone, and for room to 64 and more. */
const SHORTEST = 10;
const LONGEST = 200;

/** The password's hash in Argon2's own text form. Refuses `bad-input` for one that is too short or too long. */
export async function hashPassword(password: string): Promise<string> {
  const length = [...password].length;
  if (length < SHORTEST || length > LONGEST) {
    const message = `must have ${SHORTEST} to ${LONGEST} characters; a few words that only you would put together are good`;
    throw badInput([{ column: 'password', message }]);
  }
  return await hash(password, PARAMETERS);
}

/** Whether a password belongs to a hash. Without a hash the same work is done and the answer is no. */
export async function isPassword(password: string, passwordHash: string | null): Promise<boolean> {
  // Somebody who tries names must not learn from the time it takes which of them are known.
  const against = passwordHash ?? (await hashOfNothing());
  const fits = await verify(against, password.slice(0, LONGEST * 4));
  return fits && passwordHash !== null;
}

let nothing: Promise<string> | undefined;

function hashOfNothing(): Promise<string> {
  nothing ??= hash('nobody has this password', PARAMETERS);
  return nothing;
}
