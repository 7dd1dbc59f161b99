/**
 * Answers to corrections that were proposed.
 */
'use server';

import { answerCorrection } from '../../usecases/corrections/agree-correction.ts';
import type { FormState } from '../forms/form-state.ts';
import { keyOf, submit, textOf } from '../forms/submit.ts';
import { currentContext } from '../server/current-caller.ts';
import { tellingAddress } from '../server/told.ts';

export async function confirmCorrection(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const { resettled } = await answerCorrection(await currentContext(), {
      correctionId: textOf(sent, 'correction'),
      answer: 'confirmed',
      ...keyOf(sent),
    });
    const loads = resettled === 1 ? 'One load is settled anew.' : `${resettled} loads are settled anew.`;
    return { to: await tellingAddress('/corrections', {}, `Confirmed. ${loads}`) };
  });
}

export async function refuseCorrection(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await answerCorrection(await currentContext(), {
      correctionId: textOf(sent, 'correction'),
      answer: 'refused',
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    return { to: await tellingAddress('/corrections', {}, 'Refused. What was recorded stands.') };
  });
}

export async function withdrawCorrection(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await answerCorrection(await currentContext(), {
      correctionId: textOf(sent, 'correction'),
      answer: 'withdrawn',
      ...keyOf(sent),
    });
    return { to: await tellingAddress('/corrections', {}, 'Withdrawn. What was recorded stands.') };
  });
}
