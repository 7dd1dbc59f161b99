/**
 * Records a laboratory's figures.
 */
'use server';

import { TESTED } from '../../../domain/agreement/measures.ts';
import { columnOf } from '../../../domain/tables/table-shape.ts';
import { badInput } from '../../../usecases/read-input-rows.ts';
import { recordResults } from '../../../usecases/results/record-results.ts';
import type { FormState } from '../../forms/form-state.ts';
import { isConfirmed, rowOf, submit, textOf } from '../../forms/submit.ts';
import { currentContext } from '../../server/current-caller.ts';
import { tellingAddress } from '../../server/told.ts';
import { reportsIn } from '../sent-report.ts';

const COLUMNS = [
  'basis',
  ...TESTED.map(columnOf),
  'laboratory',
  'method',
  'dry_matter_method',
  'reported_on',
];

export async function enterResult(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const context = await currentContext();
    const agreementId = textOf(sent, 'agreement');
    const [chosen, other] = [textOf(sent, 'sample'), textOf(sent, 'other_sample')];
    if (chosen !== '' && other !== '' && chosen !== other) {
      throw badInput([
        {
          column: 'sample',
          message: `is ${chosen} in the list and ${other} beneath it; leave one of the two empty`,
        },
      ]);
    }
    if (textOf(sent, 'basis') === '') {
      throw badInput([{ column: 'basis', message: 'must be chosen, as the laboratory’s sheet says' }]);
    }
    const sample = chosen === '' ? other : chosen;
    const key = textOf(sent, 'key');
    await recordResults(context, {
      agreementId,
      results: [{ sample, ...rowOf(sent, COLUMNS) }],
      reports: await reportsIn(sent, sample),
      confirmed: isConfirmed(sent),
      ...(key === '' ? {} : { key }),
    });
    const kept = { agreement: agreementId, ...rowOf(sent, ['basis', 'laboratory', 'dry_matter_method']) };
    return { to: await tellingAddress('/results/new', kept, `The result of sample ${sample} is recorded.`) };
  });
}
