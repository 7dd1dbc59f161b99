/**
 * The other side's word about a result, and the laboratory's own report.
 */
'use server';

import { MOST_FILE_BYTES } from '../../domain/files/file-kind.ts';
import { badInput } from '../../usecases/read-input-rows.ts';
import { confirmResult, contestResult } from '../../usecases/results/answer-result.ts';
import { attachReport } from '../../usecases/results/attach-report.ts';
import type { FormState } from '../forms/form-state.ts';
import { keyOf, submit, textOf } from '../forms/submit.ts';
import { backTo } from '../server/ask.ts';
import { currentContext } from '../server/current-caller.ts';
import { tellingAddress } from '../server/told.ts';

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
    await attachReport(await currentContext(), {
      agreementId: textOf(sent, 'agreement'),
      resultId: textOf(sent, 'result'),
      report: await reportIn(sent),
      ...keyOf(sent),
    });
    return await back(sent, `The report is kept with the result of sample ${textOf(sent, 'sample')}.`);
  });
}

/** Refuses `bad-input` where no file was chosen. */
async function reportIn(sent: FormData) {
  const file = sent.get('report');
  if (!(file instanceof File) || file.name === '') {
    throw badInput([{ column: 'report', message: 'must be chosen' }]);
  }
  // A file that is too long is refused for its length: one byte more than allowed says as much.
  const bytes = new Uint8Array(await file.slice(0, MOST_FILE_BYTES + 1).arrayBuffer());
  return { name: file.name, bytes };
}

async function back(sent: FormData, told: string) {
  const [path = '/', query = ''] = backTo(textOf(sent, 'back')).split('?');
  return { to: await tellingAddress(path, Object.fromEntries(new URLSearchParams(query)), told) };
}
