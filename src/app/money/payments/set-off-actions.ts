/**
 * Money on account for open documents: one side proposes it, the other agrees or refuses.
 */
'use server';

import { SPREADS } from '../../../domain/money/spread.ts';
import { answerSetOff, proposeSetOff } from '../../../usecases/money/agree-set-off.ts';
import type { FormState } from '../../forms/form-state.ts';
import { keyOf, submit, textOf } from '../../forms/submit.ts';
import { currentContext } from '../../server/current-caller.ts';
import { tellingAddress } from '../../server/told.ts';
import { partsIn } from '../spread-fields.ts';

export async function propose(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const spread = SPREADS.find((known) => known === textOf(sent, 'spread'));
    await proposeSetOff(await currentContext(), {
      agreementId: textOf(sent, 'agreement'),
      amount: textOf(sent, 'amount'),
      ...(spread === undefined ? {} : { spread }),
      parts: partsIn(sent),
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    return await back(
      sent,
      `It is proposed to ${textOf(sent, 'partner')}. Nothing is used until they agree.`,
    );
  });
}

export async function agree(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await answerSetOff(await currentContext(), {
      setOffId: textOf(sent, 'setOff'),
      answer: 'confirmed',
      ...keyOf(sent),
    });
    return await back(sent, `Agreed: the money on account is used. ${textOf(sent, 'partner')} is told.`);
  });
}

export async function refuse(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await answerSetOff(await currentContext(), {
      setOffId: textOf(sent, 'setOff'),
      answer: 'refused',
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    return await back(sent, 'Refused. The money stays on account.');
  });
}

export async function takeBack(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await answerSetOff(await currentContext(), {
      setOffId: textOf(sent, 'setOff'),
      answer: 'withdrawn',
      ...keyOf(sent),
    });
    return await back(sent, 'The proposal is taken back. The money stays on account.');
  });
}

async function back(sent: FormData, told: string) {
  return { to: await tellingAddress('/money/payments', { agreement: textOf(sent, 'agreement') }, told) };
}
