/**
 * Joins the party, signs in and acts for it.
 */
'use server';

import { joinParty } from '../../../usecases/people/join-party.ts';
import type { FormState } from '../../forms/form-state.ts';
import { submit, textOf } from '../../forms/submit.ts';
import { rememberParty, signInHere } from '../../server/browser-session.ts';
import { clientOrigin } from '../../server/client-address.ts';
import { openedRecord } from '../../server/record.ts';

export async function join(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const password = sent.get('password');
    const person = {
      name: textOf(sent, 'name'),
      email: textOf(sent, 'email'),
      password: typeof password === 'string' ? password : '',
    };
    const { address } = await clientOrigin();
    const joined = await joinParty(await openedRecord(), {
      ...person,
      secret: textOf(sent, 'secret'),
      address,
    });
    await signInHere(person);
    await rememberParty(joined.partyId);
    return { to: '/loads' };
  });
}
