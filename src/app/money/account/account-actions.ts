/**
 * Where the party wants its money.
 */
'use server';

import { ACCOUNT_COLUMNS } from '../../../domain/money/account-row.ts';
import { keepAccount } from '../../../usecases/money/keep-account.ts';
import type { FormState } from '../../forms/form-state.ts';
import { keyOf, rowOf, submit } from '../../forms/submit.ts';
import { currentContext } from '../../server/current-caller.ts';
import { tellingAddress } from '../../server/told.ts';

export async function keep(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await keepAccount(await currentContext(), {
      account: rowOf(sent, [...ACCOUNT_COLUMNS.required, ...ACCOUNT_COLUMNS.optional]),
      ...keyOf(sent),
    });
    const told = 'The account is kept, and everybody who has an agreement with you is told that it changed.';
    return { to: await tellingAddress('/money/account', {}, told) };
  });
}
