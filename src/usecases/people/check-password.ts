/**
 * Asks somebody who is signed in for their password again, before they bind their party.
 */
import type { Tools } from '../context.ts';
import { Refusal } from '../refusal.ts';
import { isPassword } from './password.ts';
import { refuseThrottled } from './throttle.ts';

/**
 * Returns the person's name. Refuses `too-many-tries`, and `wrong-sign-in` where it is not their password, or they sign
 * in elsewhere and have none here.
 */
export async function checkPassword(
  tools: Tools,
  {
    personId,
    password,
    address,
  }: { readonly personId: string; readonly password: string; readonly address: string },
): Promise<string> {
  const person = await tools.store.atDoor(async (tx) => {
    const found = await tx.person.findUniqueOrThrow({ where: { id: personId } });
    await refuseThrottled(tx, tools, { email: found.email, address });
    return found;
  });
  if (person.passwordHash === null) {
    throw new Refusal(
      'wrong-sign-in',
      'You sign in by another service and have no password here. Set one under “People and sign-ins”, then sign.',
    );
  }
  const fits = await isPassword(password, person.passwordHash);
  await tools.store.atDoor((tx) =>
    tx.signInTry.create({
      data: {
        id: tools.newId(),
        email: person.email,
        address,
        succeeded: fits,
        at: new Date(tools.now()),
      },
    }),
  );
  if (!fits) throw new Refusal('wrong-sign-in', 'This is not your password. Nothing was signed.');
  return person.name;
}
