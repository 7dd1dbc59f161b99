/**
 * What the sign-in form does.
 */
'use server';

import type { FormState } from '../forms/form-state.ts';
import { submit, textOf } from '../forms/submit.ts';
import { backTo } from '../server/ask.ts';
import { signInHere } from '../server/browser-session.ts';

export async function enter(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const password = sent.get('password');
    await signInHere({
      email: textOf(sent, 'email'),
      password: typeof password === 'string' ? password : '',
    });
    return { to: backTo(textOf(sent, 'back')) };
  });
}
