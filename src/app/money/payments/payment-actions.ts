/**
 * What becomes of payments: confirmed, contested, taken back, given back by the bank.
 */
'use server';

import { answerPayment } from '../../../usecases/money/answer-payment.ts';
import { reversePayment } from '../../../usecases/money/reverse-payment.ts';
import type { FormState } from '../../forms/form-state.ts';
import { keyOf, submit, textOf } from '../../forms/submit.ts';
import { currentContext } from '../../server/current-caller.ts';
import { tellingAddress } from '../../server/told.ts';

export async function confirmPaid(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await answerPayment(await currentContext(), {
      paymentId: textOf(sent, 'payment'),
      answer: 'confirmed',
      ...keyOf(sent),
    });
    return await back(sent, `Confirmed: the payment counts. ${textOf(sent, 'partner')} is told.`);
  });
}

export async function contestPaid(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await answerPayment(await currentContext(), {
      paymentId: textOf(sent, 'payment'),
      answer: 'contested',
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    return await back(
      sent,
      `Contested: the payment counts for nothing. ${textOf(sent, 'partner')} is told why.`,
    );
  });
}

export async function takeBackPaid(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await answerPayment(await currentContext(), {
      paymentId: textOf(sent, 'payment'),
      answer: 'withdrawn',
      ...keyOf(sent),
    });
    return await back(sent, 'The record of the payment is taken back. It counts for nothing.');
  });
}

export async function givenBack(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const { fee } = await reversePayment(await currentContext(), {
      paymentId: textOf(sent, 'payment'),
      reversedOn: textOf(sent, 'reversed_on'),
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    const charged = fee === null ? '' : ` The agreed fee is charged: Fee invoice ${fee}.`;
    return await back(
      sent,
      `What the payment had paid is open again.${charged} ${textOf(sent, 'partner')} is told.`,
    );
  });
}

async function back(sent: FormData, told: string) {
  return { to: await tellingAddress('/money/payments', { agreement: textOf(sent, 'agreement') }, told) };
}
