/**
 * A laboratory enters its own result, or puts one right that it entered.
 */
'use server';

import { TESTED } from '../../domain/agreement/measures.ts';
import { columnOf } from '../../domain/tables/table-shape.ts';
import { badInput } from '../../usecases/read-input-rows.ts';
import { reportResults } from '../../usecases/results/report-results.ts';
import type { FormState } from '../forms/form-state.ts';
import { isConfirmed, keyOf, rowOf, submit, textOf } from '../forms/submit.ts';
import { reportsIn } from '../results/sent-report.ts';
import { currentContext } from '../server/current-caller.ts';
import { tellingAddress } from '../server/told.ts';

const COLUMNS = ['basis', ...TESTED.map(columnOf), 'method', 'dry_matter_method', 'reported_on'];

export async function report(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const sample = textOf(sent, 'sample');
    if (textOf(sent, 'basis') === '') {
      throw badInput([{ column: 'basis', message: 'must be chosen, as the report says' }]);
    }
    await reportResults(await currentContext(), {
      agreementId: textOf(sent, 'agreement'),
      results: [{ sample, ...rowOf(sent, COLUMNS) }],
      reports: await reportsIn(sent, sample),
      ...(textOf(sent, 'correcting') === 'yes' ? { reason: textOf(sent, 'reason') } : {}),
      confirmed: isConfirmed(sent),
      ...keyOf(sent),
    });
    const kept = rowOf(sent, ['basis', 'dry_matter_method']);
    return { to: await tellingAddress('/laboratory', kept, `The result of sample ${sample} is reported.`) };
  });
}
