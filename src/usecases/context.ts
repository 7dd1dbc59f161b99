/**
 * Who asks, and what a use case needs from the outside: the record, a clock and new ids.
 */
import { type Instant, whenText } from '../domain/dates/instant.ts';
import { mayDo, ROLE_NAMES, type Role, VERB_NAMES, type Verb } from '../domain/parties/permissions.ts';
import { type Scope, scopesLet } from '../domain/parties/scopes.ts';
import type { Mailer } from '../mail/smtp-mailer.ts';
import type { Store } from '../store/open-store.ts';
import { Refusal } from './refusal.ts';

/** Tools that every use case has. */
export interface Tools {
  readonly store: Store;
  readonly now: () => Instant;
  /** A UUIDv7. */
  readonly newId: () => string;
  /** Where a mail server is set. */
  readonly mailer?: Mailer;
}

/** A member of a party, as whom the request is made. */
export interface Caller {
  readonly personId: string;
  readonly partyId: string;
  readonly role: Role;
  /** Where a program asks: the token that it showed. It may do what its scopes name and no more. */
  readonly token?: { readonly id: string; readonly scopes: readonly Scope[] };
}

export interface Context extends Tools {
  readonly caller: Caller;
}

/** The moment, as the record writes it. */
export function stamp({ now }: Tools): string {
  return whenText(now());
}

/** Refuses (`not-allowed`) what the caller's role, or the token of a program, may not do. */
export function permit({ caller }: Context, verb: Verb): void {
  if (caller.token && !scopesLet(caller.token.scopes, verb)) {
    throw new Refusal('not-allowed', `This token may not ${VERB_NAMES[verb]}.`);
  }
  if (mayDo(caller.role, verb)) return;
  throw new Refusal(
    'not-allowed',
    `A ${ROLE_NAMES[caller.role]} may not ${VERB_NAMES[verb]}. Ask an owner of your party for another role.`,
  );
}

/** Refuses (`not-allowed`) a program whose token has none of these scopes; people are held by their role alone. */
export function requireScope({ caller }: Context, scopes: readonly Scope[]): void {
  if (!caller.token || scopes.some((scope) => caller.token?.scopes.includes(scope))) return;
  throw new Refusal(
    'not-allowed',
    scopes.length === 0
      ? 'Only a person who is signed in may ask for this, not a program.'
      : `This token lacks ${scopes.join(' or ')}. Ask an owner of your party for one that has it.`,
  );
}
