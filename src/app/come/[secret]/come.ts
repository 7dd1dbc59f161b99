/**
 * Comes by a link: for the party that the reader acts for, or as a new one.
 */
'use server';

import { acceptShare, type Come } from '../../../usecases/sharing/accept-share.ts';
import { joinWithNewParty } from '../../../usecases/sharing/join-with-new-party.ts';
import type { FormState } from '../../forms/form-state.ts';
import { submit, textOf } from '../../forms/submit.ts';
import { rememberParty, signInHere } from '../../server/browser-session.ts';
import { clientOrigin } from '../../server/client-address.ts';
import { currentContext } from '../../server/current-caller.ts';
import { openedRecord } from '../../server/record.ts';

export async function accept(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const come = await acceptShare(await currentContext(), { secret: textOf(sent, 'secret') });
    return { to: onward(come) };
  });
}

export async function joinAnew(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const password = sent.get('password');
    const person = {
      party: textOf(sent, 'party'),
      name: textOf(sent, 'name'),
      email: textOf(sent, 'email'),
      password: typeof password === 'string' ? password : '',
    };
    const { address } = await clientOrigin();
    const secret = textOf(sent, 'secret');
    const come = await joinWithNewParty(await openedRecord(), { ...person, secret, address });
    await signInHere(person);
    await rememberParty(come.partyId);
    return { to: onward(come) };
  });
}

function onward({ subject, adviceId }: Come): string {
  if (adviceId !== null) return `/advice/${adviceId}`;
  return 'lotId' in subject ? `/lots/${subject.lotId}` : '/';
}
