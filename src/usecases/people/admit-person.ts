/**
 * Somebody who comes by a link: known here, and then by their own password; or new, with a password of their choice.
 */
import type { Transaction } from '../../store/open-store.ts';
import type { Tools } from '../context.ts';
import { badInput } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { hashPassword, isPassword } from './password.ts';
import { refuseThrottled } from './throttle.ts';

export interface Arriving {
  readonly name: string;
  /** In small letters. */
  readonly email: string;
  readonly password: string;
  /** The network address that the request came from. */
  readonly address: string;
}

export interface Admitted {
  readonly personId: string;
  readonly name: string;
  readonly email: string;
  /** Undefined for somebody who is known. */
  readonly passwordHash: string | undefined;
}

/**
 * Writes nothing but the try. Refuses `too-many-tries`, `bad-input`, and `wrong-sign-in` where the e-mail address is known
 * and the password is not its own.
 */
export async function admitPerson(
  tools: Tools,
  { name, email, password, address }: Arriving,
): Promise<Admitted> {
  const known = await tools.store.atDoor(async (tx) => {
    await refuseThrottled(tx, tools, { email, address });
    return await tx.person.findUnique({ where: { email } });
  });
  if (!known) {
    return { personId: tools.newId(), name, email, passwordHash: await hashPassword(password) };
  }
  const fits = await isPassword(password, known.passwordHash);
  await tools.store.atDoor((tx) =>
    tx.signInTry.create({
      data: { id: tools.newId(), email, address, succeeded: fits, at: new Date(tools.now()) },
    }),
  );
  if (!fits) {
    throw new Refusal(
      'wrong-sign-in',
      'Somebody with this e-mail address is known here. Use their password.',
    );
  }
  return { personId: known.id, name: known.name, email, passwordHash: undefined };
}

/** At the door: writes somebody who is new. Refuses `bad-input` where another took the address in the meantime. */
export async function writePerson(
  tx: Transaction,
  { personId, name, email, passwordHash }: Admitted,
): Promise<void> {
  if (passwordHash === undefined) return;
  if (await tx.person.findUnique({ where: { email } })) {
    throw badInput([{ column: 'email', message: 'was just taken; try again' }]);
  }
  await tx.person.create({ data: { id: personId, name, email, passwordHash } });
}
