/**
 * Records a payment that was made: by whoever paid, or by whoever got the money.
 */
'use server';

import { recordPayment } from '../../../usecases/money/record-payment.ts';
import type { FormState } from '../../forms/form-state.ts';
import { isConfirmed, keyOf, rowOf, submit, textOf } from '../../forms/submit.ts';
import { currentContext } from '../../server/current-caller.ts';
import { tellingAddress } from '../../server/told.ts';
import { partsIn } from '../spread-fields.ts';

const FIELDS = ['amount', 'paid_on', 'method', 'reference', 'spread', 'made_out_to'];

export async function pay(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const agreementId = textOf(sent, 'agreement');
    const partner = textOf(sent, 'partner');
    // The reason stands in the form while a lender is named as well; then it is none.
    const isPastLien = textOf(sent, 'made_out_to') === 'seller';
    const { counts } = await recordPayment(await currentContext(), {
      agreementId,
      direction: textOf(sent, 'direction') === 'received' ? 'received' : 'paid',
      payment: rowOf(sent, isPastLien ? [...FIELDS, 'past_lien'] : FIELDS),
      parts: partsIn(sent),
      confirmed: isConfirmed(sent),
      ...keyOf(sent),
    });
    const told = counts
      ? `The payment is recorded, and it counts. ${partner} is told.`
      : `The payment is recorded. It counts once ${partner} confirms that it came.`;
    return { to: await tellingAddress('/money/payments', { agreement: agreementId }, told) };
  });
}
