/**
 * Ends somebody's part in the party.
 */
'use server';

import { endMembership } from '../../usecases/people/members.ts';
import type { FormState } from '../forms/form-state.ts';
import { submit, textOf } from '../forms/submit.ts';
import { currentContext } from '../server/current-caller.ts';

export async function end(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await endMembership(await currentContext(), { memberId: textOf(sent, 'member') });
    return { to: '/people' };
  });
}
