/**
 * What is said of lists: that the two sides see each other's, and that the record is right about a row.
 */
'use server';

import { acceptRow } from '../../../../usecases/season-close/accept-row.ts';
import { consentToLists } from '../../../../usecases/season-close/consent-to-lists.ts';
import type { FormState } from '../../../forms/form-state.ts';
import { keyOf, submit, textOf } from '../../../forms/submit.ts';
import { currentContext } from '../../../server/current-caller.ts';
import { tellingAddress } from '../../../server/told.ts';

const at = (agreementId: string) => `/agreements/${agreementId}/own-list`;

export async function sayConsent(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const agreementId = textOf(sent, 'agreement');
    const word = textOf(sent, 'word') === 'given' ? 'given' : 'withdrawn';
    const { areShared } = await consentToLists(await currentContext(), { agreementId, word, ...keyOf(sent) });
    const told =
      word === 'withdrawn'
        ? 'Your side no longer agrees. Neither side sees the other’s lists now.'
        : areShared
          ? 'Both sides agree: each sees the other’s lists now.'
          : 'Your side agrees. Nobody sees anything until the other side agrees too.';
    return { to: await tellingAddress(at(agreementId), {}, told) };
  });
}

export async function sayAccepted(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const agreementId = textOf(sent, 'agreement');
    const word = textOf(sent, 'word') === 'accepted' ? 'accepted' : 'taken-back';
    await acceptRow(await currentContext(), {
      agreementId,
      kind: textOf(sent, 'kind'),
      fingerprint: textOf(sent, 'fingerprint'),
      word,
      ...keyOf(sent),
    });
    const told =
      word === 'accepted'
        ? 'The row stands under “You accept the record” now, for your side alone.'
        : 'You no longer accept the record for that row. It is open again.';
    return { to: await tellingAddress(at(agreementId), {}, told) };
  });
}
