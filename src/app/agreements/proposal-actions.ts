/**
 * What either side proposes about an agreement that stands: other terms from a day on, or its early end.
 */
'use server';

import { proposeAmendment, proposeClosing } from '../../usecases/offers/propose-amendment.ts';
import type { FormState } from '../forms/form-state.ts';
import { keyOf, submit, textOf } from '../forms/submit.ts';
import { sendingIn, termsIn } from '../offers/terms-in.ts';
import { currentContext } from '../server/current-caller.ts';
import { tellingAddress } from '../server/told.ts';

const SENT = 'Your proposal is sent. Nothing changes until both sides have signed one version of it.';

export async function amend(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const { offerId } = await proposeAmendment(await currentContext(), {
      agreementId: textOf(sent, 'agreement'),
      document: termsIn(sent),
      effectiveFrom: textOf(sent, 'effectiveFrom'),
      ...sendingIn(sent),
      ...keyOf(sent),
    });
    return { to: await tellingAddress(`/offers/${offerId}`, {}, SENT) };
  });
}

export async function close(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const { offerId } = await proposeClosing(await currentContext(), {
      agreementId: textOf(sent, 'agreement'),
      lastDelivery: textOf(sent, 'lastDelivery'),
      reason: textOf(sent, 'reason'),
      ...sendingIn(sent),
      ...keyOf(sent),
    });
    return { to: await tellingAddress(`/offers/${offerId}`, {}, SENT) };
  });
}
