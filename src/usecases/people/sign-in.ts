/**
 * Signing in by e-mail address and password, and the sessions that come of it.
 */
import type { Tools } from '../context.ts';
import { Refusal } from '../refusal.ts';
import { isPassword } from './password.ts';
import { refuseThrottled } from './throttle.ts';

/** Where a request came from. */
export interface Origin {
  /** The network address. */
  readonly address: string;
  /** What the browser calls itself. */
  readonly agent: string;
}

export interface SignedIn {
  readonly sessionId: string;
  readonly personId: string;
  readonly name: string;
  readonly email: string;
}

const SESSION_DAYS = 30;
const DAY = 86_400_000;

/** Refuses `too-many-tries` and `wrong-sign-in`, which never says which of the two was wrong. */
export async function signIn(
  tools: Tools,
  given: { readonly email: string; readonly password: string } & Origin,
): Promise<SignedIn> {
  const email = given.email.trim().toLowerCase().slice(0, 254);
  const person = await tools.store.atDoor(async (tx) => {
    await refuseThrottled(tx, tools, { email, address: given.address });
    return await tx.person.findUnique({ where: { email } });
  });
  const fits = await isPassword(given.password, person?.passwordHash ?? null);
  await tools.store.atDoor((tx) =>
    tx.signInTry.create({
      data: {
        id: tools.newId(),
        email,
        address: given.address,
        succeeded: fits,
        at: new Date(tools.now()),
      },
    }),
  );
  if (!fits || !person) {
    throw new Refusal('wrong-sign-in', 'The e-mail address or the password is wrong.');
  }
  return await openSession(tools, { personId: person.id, ...given });
}

/** Somebody whom an OpenID Connect provider vouches for. Refuses `wrong-sign-in` for one whom nobody invited. */
export async function signInByProvider(
  tools: Tools,
  given: { readonly email: string } & Origin,
): Promise<SignedIn> {
  const email = given.email.trim().toLowerCase();
  const person = await tools.store.atDoor((tx) => tx.person.findUnique({ where: { email } }));
  if (!person) {
    throw new Refusal(
      'wrong-sign-in',
      `Nobody here has the e-mail address ${email}. Ask for an invitation first.`,
    );
  }
  return await openSession(tools, { personId: person.id, ...given });
}

async function openSession(
  { store, now, newId }: Tools,
  { personId, address, agent }: { readonly personId: string } & Origin,
): Promise<SignedIn> {
  const sessionId = newId();
  return await store.atDoor(async (tx) => {
    const { name, email } = await tx.person.findUniqueOrThrow({ where: { id: personId } });
    await tx.session.create({
      data: {
        id: sessionId,
        personId,
        address,
        agent: agent.slice(0, 200),
        createdAt: new Date(now()),
        expiresAt: new Date(now() + SESSION_DAYS * DAY),
      },
    });
    return { sessionId, personId, name, email };
  });
}
