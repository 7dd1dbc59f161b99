/**
 * Signing out, here and elsewhere, and choosing the party to act for.
 */
'use server';

import { redirect } from 'next/navigation';
import { signOut, signOutElsewhere } from '../../usecases/people/read-session.ts';
import type { FormState } from '../forms/form-state.ts';
import { submit, textOf } from '../forms/submit.ts';
import { forgetBrowserSession, rememberParty } from '../server/browser-session.ts';
import { currentSession } from '../server/current-caller.ts';
import { openedRecord } from '../server/record.ts';

export async function leave(): Promise<void> {
  const session = await currentSession();
  if (session) await signOut(await openedRecord(), session);
  await forgetBrowserSession();
  redirect('/sign-in');
}

export async function chooseParty(sent: FormData): Promise<void> {
  const session = await currentSession();
  const party = textOf(sent, 'party');
  if (session?.memberships.some(({ partyId }) => partyId === party)) await rememberParty(party);
  redirect('/loads');
}

export async function leaveElsewhere(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const session = await currentSession();
    if (!session) return { to: '/sign-in' };
    const ended = await signOutElsewhere(await openedRecord(), session);
    switch (ended) {
      case 0:
        return { told: 'You were signed in nowhere else.' };
      case 1:
        return { told: 'One other browser was signed out.' };
      default:
        return { told: `${ended} other browsers were signed out.` };
    }
  });
}
