/**
 * Lets a program in: a token that acts for the party with the scopes that an owner gives it. Its secret is shown once
 * and kept as its hash alone.
 */
import { SCOPES, type Scope, scopesAmong } from '../../domain/parties/scopes.ts';
import { CONTROL_CHARACTER } from '../../domain/text/control-character.ts';
import { type Context, permit } from '../context.ts';
import { newSecret, secretHash } from '../people/secret-link.ts';
import { badInput } from '../read-input-rows.ts';
import type { Problem } from '../refusal.ts';

/** What every token begins with, so that one that strayed into a file is known for what it is. */
export const TOKEN_PREFIX = 'hl_';
const LONGEST_NAME = 100;

export interface TokenToMake {
  /** What it is for: "scale house". */
  readonly name: string;
  readonly scopes: readonly string[];
}

export interface MadeToken {
  readonly id: string;
  readonly name: string;
  readonly scopes: readonly Scope[];
  /** Shown this once. */
  readonly secret: string;
}

/** Refuses `not-allowed`, and `bad-input` for a token without a name or with a scope that is none. */
export async function makeToken(context: Context, asked: TokenToMake): Promise<MadeToken> {
  permit(context, 'keep-token');
  const { name, scopes } = readToken(asked);
  const { caller, store, newId, now } = context;
  const { partyId, personId } = caller;
  const id = newId();
  const secret = `${TOKEN_PREFIX}${newSecret()}`;
  // Without a request key: what answers one is kept, and a secret must not be.
  await store.forParty(partyId, async (tx) => {
    await tx.apiToken.create({
      data: {
        id,
        partyId,
        name,
        scopes: scopes.join(' '),
        tokenHash: secretHash(secret),
        createdAt: new Date(now()),
        createdBy: personId,
      },
    });
    await tx.audit.create({
      data: { id: newId(), partyId, personId, verb: 'make-token', subject: `${id} ${scopes.join(' ')}` },
    });
  });
  return { id, name, scopes, secret };
}

function readToken(asked: TokenToMake): { readonly name: string; readonly scopes: readonly Scope[] } {
  const problems: Problem[] = [];
  const name = asked.name.trim().replace(/\s+/g, ' ');
  if (name === '' || name.length > LONGEST_NAME || CONTROL_CHARACTER.test(name)) {
    problems.push({ column: 'name', message: `must say in 1 to ${LONGEST_NAME} characters what it is for` });
  }
  const scopes = scopesAmong(asked.scopes);
  const unknown = asked.scopes.filter((word) => !scopes.some((scope) => scope === word));
  if (unknown.length > 0) {
    problems.push({ column: 'scopes', message: `must be among ${SCOPES.join(', ')}` });
  } else if (scopes.length === 0) {
    problems.push({ column: 'scopes', message: 'must name at least one thing that it may do' });
  }
  if (problems.length > 0) throw badInput(problems);
  return { name, scopes };
}
