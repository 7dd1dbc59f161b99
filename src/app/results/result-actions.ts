/**
 * The other side's word about a result, and the laboratory's own report.
 */
'use server';

import { badInput } from '../../usecases/read-input-rows.ts';
import { confirmResult, contestResult } from '../../usecases/results/answer-result.ts';
import { attachReport } from '../../usecases/results/attach-report.ts';
import type { FormState } from '../forms/form-state.ts';
import { keyOf, submit, textOf } from '../forms/submit.ts';
import { backTo } from '../server/ask.ts';
import { currentContext } from '../server/current-caller.ts';
import { tellingAddress } from '../server/told.ts';
import { reportIn } from './sent-report.ts';

export async function confirm(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await confirmResult(await currentContext(), { resultId: textOf(sent, 'result'), ...keyOf(sent) });
    return await back(sent, `The result of sample ${textOf(sent, 'sample')} is confirmed.`);
  });
}

export async function contest(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await contestResult(await currentContext(), {
      resultId: textOf(sent, 'result'),
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    return await back(
      sent,
      `The result of sample ${textOf(sent, 'sample')} is contested. Nothing settles from it until that is over.`,
    );
  });
}

export async function attach(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const report = await reportIn(sent);
    if (!report) throw badInput([{ column: 'report', message: 'must be chosen, and not be empty' }]);
    await attachReport(await currentContext(), {
      agreementId: textOf(sent, 'agreement'),
      resultId: textOf(sent, 'result'),
      report,
      ...keyOf(sent),
    });
    return await back(sent, `The report is kept with the result of sample ${textOf(sent, 'sample')}.`);
  });
}

async function back(sent: FormData, told: string) {
  const [path = '/', query = ''] = backTo(textOf(sent, 'back')).split('?');
  return { to: await tellingAddress(path, Object.fromEntries(new URLSearchParams(query)), told) };
}
