/**
 * Marks notices as seen.
 */
'use server';

import { markSeen } from '../../usecases/notices/read-notices.ts';
import type { FormState } from '../forms/form-state.ts';
import { submit, textOf } from '../forms/submit.ts';
import { currentContext } from '../server/current-caller.ts';

export async function seen(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await markSeen(await currentContext(), { noticeIds: textOf(sent, 'notices').split(' ') });
    return { to: '/' };
  });
}
