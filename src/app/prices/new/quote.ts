/**
 * Records a quote.
 */
'use server';

import { readAgreementWords } from '../../../usecases/agreements/read-agreement-words.ts';
import { recordQuotes } from '../../../usecases/prices/record-quotes.ts';
import { badInput } from '../../../usecases/read-input-rows.ts';
import type { FormState } from '../../forms/form-state.ts';
import { isConfirmed, rowOf, submit, textOf } from '../../forms/submit.ts';
import { currentContext } from '../../server/current-caller.ts';
import { tellingAddress } from '../../server/told.ts';
import { wallClockNow } from '../../times/wall-clock.ts';

export async function quote(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const context = await currentContext();
    const agreementId = textOf(sent, 'agreement');
    const row = rowOf(sent, ['series', 'date', 'price']);
    const { timeZone } = await readAgreementWords(context, { agreementId });
    // A date too late would close the days before it, and loads would settle on what stands there.
    if ((row['date'] ?? '') > wallClockNow(context.now(), timeZone).slice(0, 10)) {
      throw badInput([
        { column: 'date', message: 'is still to come; a price is recorded once it is published' },
      ]);
    }
    const key = textOf(sent, 'key');
    await recordQuotes(context, {
      agreementId,
      quotes: [row],
      confirmed: isConfirmed(sent),
      ...(key === '' ? {} : { key }),
    });
    const told = `${row['series']} of ${row['date']} at ${row['price']} is recorded.`;
    return {
      to: await tellingAddress('/prices/new', { agreement: agreementId, series: row['series'] }, told),
    };
  });
}
