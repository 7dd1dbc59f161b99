/**
 * Money off for a load outside its ranges: one side proposes it, the other confirms or refuses.
 */
'use server';

import { answerAllowance, proposeAllowance } from '../../../usecases/loads/agree-allowance.ts';
import type { FormState } from '../../forms/form-state.ts';
import { keyOf, rowOf, submit, textOf } from '../../forms/submit.ts';
import { currentContext } from '../../server/current-caller.ts';
import { tellingAddress } from '../../server/told.ts';

export async function propose(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const loadId = textOf(sent, 'load');
    const per = textOf(sent, 'per');
    await proposeAllowance(await currentContext(), {
      loadId,
      // By the load there is no weight to choose.
      allowance: rowOf(sent, per === 'load' ? ['taken_off', 'per'] : ['taken_off', 'per', 'weight']),
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    return await back(loadId, `The allowance is proposed to ${textOf(sent, 'partner')}.`);
  });
}

export async function confirmAllowance(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await answerAllowance(await currentContext(), {
      proposalId: textOf(sent, 'proposal'),
      answer: 'confirmed',
      ...keyOf(sent),
    });
    return await back(textOf(sent, 'load'), 'Confirmed: the load is accepted at this allowance.');
  });
}

export async function refuseAllowance(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await answerAllowance(await currentContext(), {
      proposalId: textOf(sent, 'proposal'),
      answer: 'refused',
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    return await back(textOf(sent, 'load'), 'The allowance is refused. Nothing was decided about the load.');
  });
}

export async function withdrawAllowance(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await answerAllowance(await currentContext(), {
      proposalId: textOf(sent, 'proposal'),
      answer: 'withdrawn',
      ...keyOf(sent),
    });
    return await back(textOf(sent, 'load'), 'The allowance is withdrawn.');
  });
}

async function back(loadId: string, told: string) {
  return { to: await tellingAddress(`/loads/${loadId}`, {}, told) };
}
