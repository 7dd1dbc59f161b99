/**
 * Lenders' notices of a lien on the feed: one is recorded, or is over.
 */
'use server';

import { LIEN_COLUMNS } from '../../../domain/money/lien-row.ts';
import { endLien, recordLien } from '../../../usecases/money/keep-liens.ts';
import type { FormState } from '../../forms/form-state.ts';
import { isConfirmed, keyOf, rowOf, submit, textOf } from '../../forms/submit.ts';
import { currentContext } from '../../server/current-caller.ts';
import { tellingAddress } from '../../server/told.ts';

export async function record(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const notice = rowOf(sent, LIEN_COLUMNS.required);
    await recordLien(await currentContext(), {
      agreementId: textOf(sent, 'agreement'),
      notice,
      confirmed: isConfirmed(sent),
      ...keyOf(sent),
    });
    const lender = notice['lender'] ?? 'The lender';
    return await back(sent, `The notice is recorded. From now on ${lender} is to be named on each payment.`);
  });
}

export async function end(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const { ended } = await endLien(await currentContext(), {
      lienId: textOf(sent, 'lien'),
      endedOn: textOf(sent, 'ended_on'),
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    return await back(sent, `The notice of ${ended} is over. ${textOf(sent, 'partner')} is told.`);
  });
}

async function back(sent: FormData, told: string) {
  return { to: await tellingAddress('/money/liens', { agreement: textOf(sent, 'agreement') }, told) };
}
