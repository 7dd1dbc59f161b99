/**
 * What somebody decides for themself: their password, and whether they are told by e-mail.
 */
'use server';

import { changePassword } from '../../usecases/people/change-password.ts';
import { chooseMail } from '../../usecases/people/choose-mail.ts';
import type { FormState } from '../forms/form-state.ts';
import { submit, textOf } from '../forms/submit.ts';
import { clientOrigin } from '../server/client-address.ts';
import { currentContext, currentSession } from '../server/current-caller.ts';
import { openedRecord } from '../server/record.ts';

export async function choose(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const wanted = textOf(sent, 'mail') === 'yes';
    await chooseMail(await currentContext(), { wanted });
    return { told: wanted ? 'You are told by e-mail from now on.' : 'You get no e-mail from now on.' };
  });
}

export async function changeOwnPassword(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const session = await currentSession();
    if (!session) return { to: '/sign-in' };
    const typed = (name: string) => {
      const value = sent.get(name);
      return typeof value === 'string' ? value : '';
    };
    const { ended } = await changePassword(await openedRecord(), {
      sessionId: session.sessionId,
      present: typed('present'),
      password: typed('password'),
      ...(await clientOrigin()),
    });
    const others =
      ['', ' One other browser was signed out.'][ended] ?? ` ${ended} other browsers were signed out.`;
    return { told: `Your new password counts from now on.${others}` };
  });
}
