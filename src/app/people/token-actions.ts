/**
 * Lets programs in and ends them. A token is shown this once; the record keeps only what proves it.
 */
'use server';

import { revalidatePath } from 'next/cache';
import { SCOPES } from '../../domain/parties/scopes.ts';
import { revokeToken } from '../../usecases/tokens/keep-tokens.ts';
import { makeToken } from '../../usecases/tokens/make-token.ts';
import type { FormState } from '../forms/form-state.ts';
import { submit, textOf } from '../forms/submit.ts';
import { currentContext } from '../server/current-caller.ts';

export async function letIn(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const scopes = SCOPES.filter((scope) => {
      const [kind = '', what = ''] = scope.split(':');
      return textOf(sent, kind).split(' ').includes(what);
    });
    if (scopes.length === 0) {
      return { refused: 'Choose at least one kind of record that it may read, or read and record.' };
    }
    const { name, secret } = await makeToken(await currentContext(), { name: textOf(sent, 'name'), scopes });
    // The list above the form shows the new one at once.
    revalidatePath('/people');
    return {
      told: `This is the token of “${name}”. Copy it into the program now: it is shown only this once.`,
      link: secret,
    };
  });
}

export async function endToken(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await revokeToken(await currentContext(), { tokenId: textOf(sent, 'token') });
    return { to: '/people' };
  });
}
