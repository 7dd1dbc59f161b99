/**
 * Makes the first person and signs them in.
 */
'use server';

import { createFirstPerson } from '../../usecases/people/create-first-person.ts';
import type { FormState } from '../forms/form-state.ts';
import { submit, textOf } from '../forms/submit.ts';
import { signInHere } from '../server/browser-session.ts';
import { openedRecord } from '../server/record.ts';

export async function begin(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const password = sent.get('password');
    const person = {
      name: textOf(sent, 'name'),
      party: textOf(sent, 'party'),
      email: textOf(sent, 'email'),
      password: typeof password === 'string' ? password : '',
    };
    await createFirstPerson(await openedRecord(), person);
    await signInHere(person);
    return { to: '/loads' };
  });
}
