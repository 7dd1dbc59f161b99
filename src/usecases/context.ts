/**
 * Who asks, and what a use case needs from the outside: the record, a clock and new ids.
 */
import { type Instant, whenText } from '../domain/dates/instant.ts';
import { mayDo, ROLE_NAMES, type Role, VERB_NAMES, type Verb } from '../domain/parties/permissions.ts';
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
}

export interface Context extends Tools {
  readonly caller: Caller;
}

/** The moment, as the record writes it. */
export function stamp({ now }: Tools): string {
  return whenText(now());
}

/** Refuses (`not-allowed`) what the caller's role may not do. */
export function permit({ caller }: Context, verb: Verb): void {
  if (mayDo(caller.role, verb)) return;
  throw new Refusal(
    'not-allowed',
    `A ${ROLE_NAMES[caller.role]} may not ${VERB_NAMES[verb]}. Ask an owner of your party for another role.`,
  );
}
