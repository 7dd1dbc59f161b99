/**
 * Drawing up and signing the closing statement of a season.
 */
'use server';

import { proposeClose, signClose } from '../../../../usecases/season-close/close-season.ts';
import type { FormState } from '../../../forms/form-state.ts';
import { keyOf, submit, textOf } from '../../../forms/submit.ts';
import { currentContext } from '../../../server/current-caller.ts';
import { tellingAddress } from '../../../server/told.ts';

export async function drawUpClose(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const agreementId = textOf(sent, 'agreement');
    await proposeClose(await currentContext(), {
      agreementId,
      carriesOver: textOf(sent, 'carries.over') === 'yes',
      name: textOf(sent, 'name'),
      ...keyOf(sent),
    });
    const told =
      'The closing statement is drawn up and signed for your side. It seals the season once the other side signs it.';
    return { to: await tellingAddress(`/agreements/${agreementId}/season-close`, {}, told) };
  });
}

export async function signSeason(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await signClose(await currentContext(), {
      closeId: textOf(sent, 'close'),
      fingerprint: textOf(sent, 'fingerprint'),
      name: textOf(sent, 'name'),
      ...keyOf(sent),
    });
    const told = 'Both sides have signed: the season is sealed.';
    return { to: await tellingAddress(`/agreements/${textOf(sent, 'agreement')}/season-close`, {}, told) };
  });
}
