/**
 * Shows a lot to one more party.
 */
'use server';

import { shareLot, shareLotWith } from '../../usecases/sharing/share-lot.ts';
import type { FormState } from '../forms/form-state.ts';
import { submit, textOf } from '../forms/submit.ts';
import { currentContext } from '../server/current-caller.ts';
import { shownLink } from './shown-link.ts';

export async function makeLink(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const link = await shareLot(await currentContext(), { lotId: textOf(sent, 'lot') });
    return await shownLink(link, 'the farm or dairy that is to see the lot');
  });
}

export async function shareWith(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const lotId = textOf(sent, 'lot');
    const partyId = textOf(sent, 'party');
    await shareLotWith(await currentContext(), { lotId, partyId });
    return { to: `/lots/${lotId}?shared=${partyId}#sharing` };
  });
}
