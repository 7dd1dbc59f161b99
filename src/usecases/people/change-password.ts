/**
 * Changes one's own password, or sets a first one for somebody who signs in by another service: signing asks for it.
 */
import type { Tools } from '../context.ts';
import { badInput } from '../read-input-rows.ts';
import { hashPassword, isPassword } from './password.ts';
import { readSession, signOutElsewhere } from './read-session.ts';
import { refuseThrottled } from './throttle.ts';

export interface PasswordChange {
  readonly sessionId: string;
  /** The present password; nothing for somebody who has none. */
  readonly present: string;
  readonly password: string;
  /** The network address that the request came from. */
  readonly address: string;
}

/** Whether somebody has a password here. Refuses `not-signed-in`. */
export async function hasPassword(
  tools: Tools,
  { sessionId }: { readonly sessionId: string },
): Promise<boolean> {
  const { personId } = await readSession(tools, { sessionId });
  const { passwordHash } = await tools.store.atDoor((tx) =>
    tx.person.findUniqueOrThrow({ where: { id: personId }, select: { passwordHash: true } }),
  );
  return passwordHash !== null;
}

/**
 * Every other sign-in of the person ends; returns how many did. Refuses `not-signed-in`, `too-many-tries`, and `bad-input`
 * where the present password is not theirs or the new one is too short or too long.
 */
export async function changePassword(
  tools: Tools,
  { sessionId, present, password, address }: PasswordChange,
): Promise<{ readonly ended: number }> {
  const { personId, email } = await readSession(tools, { sessionId });
  const { passwordHash } = await tools.store.atDoor(async (tx) => {
    await refuseThrottled(tx, tools, { email, address });
    return await tx.person.findUniqueOrThrow({ where: { id: personId }, select: { passwordHash: true } });
  });
  if (passwordHash !== null) {
    const fits = await isPassword(present, passwordHash);
    await tools.store.atDoor((tx) =>
      tx.signInTry.create({
        data: { id: tools.newId(), email, address, succeeded: fits, at: new Date(tools.now()) },
      }),
    );
    if (!fits) throw badInput([{ column: 'present', message: 'is not the one you have now' }]);
  }
  const changed = await hashPassword(password);
  const { count } = await tools.store.atDoor((tx) =>
    tx.person.updateMany({ where: { id: personId, passwordHash }, data: { passwordHash: changed } }),
  );
  if (count === 0) throw badInput([{ column: 'present', message: 'was changed elsewhere just now' }]);
  return { ended: await signOutElsewhere(tools, { sessionId }) };
}
