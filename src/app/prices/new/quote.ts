/**
 * Records a quote.
 */
'use server';

import { recordQuotes } from '../../../usecases/prices/record-quotes.ts';
import type { FormState } from '../../forms/form-state.ts';
import { rowOf, submit, textOf } from '../../forms/submit.ts';
import { currentContext } from '../../server/current-caller.ts';
import { tellingAddress } from '../../server/told.ts';

export async function quote(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const context = await currentContext();
    const agreementId = textOf(sent, 'agreement');
    const row = rowOf(sent, ['series', 'date', 'price']);
    const key = textOf(sent, 'key');
    await recordQuotes(context, { agreementId, quotes: [row], ...(key === '' ? {} : { key }) });
    const told = `${row['series']} of ${row['date']} at ${row['price']} is recorded.`;
    return {
      to: await tellingAddress('/prices/new', { agreement: agreementId, series: row['series'] }, told),
    };
  });
}
