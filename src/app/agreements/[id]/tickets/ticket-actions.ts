/**
 * Begins ticket series, and accounts for numbers that no load has.
 */
'use server';

import { recordSeries, spendTicket } from '../../../../usecases/loads/spend-ticket.ts';
import { badInput } from '../../../../usecases/read-input-rows.ts';
import type { FormState } from '../../../forms/form-state.ts';
import { keyOf, rowOf, submit, textOf } from '../../../forms/submit.ts';
import { currentContext } from '../../../server/current-caller.ts';
import { tellingAddress } from '../../../server/told.ts';

export async function beginSeries(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const agreementId = textOf(sent, 'agreement');
    await recordSeries(await currentContext(), {
      agreementId,
      series: rowOf(sent, ['prefix', 'first']),
      ...keyOf(sent),
    });
    const first = `${textOf(sent, 'prefix')}${textOf(sent, 'first')}`;
    return { to: await told(agreementId, `Every number from ${first} on is accounted for now.`) };
  });
}

export async function spend(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const agreementId = textOf(sent, 'agreement');
    const use = textOf(sent, 'use');
    if (use !== 'void' && use !== 'elsewhere') {
      throw badInput([{ column: 'use', message: 'must be said: void, or used elsewhere' }]);
    }
    const ticket = textOf(sent, 'ticket');
    await spendTicket(await currentContext(), {
      ...{ agreementId, ticket, use },
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    return { to: await told(agreementId, `Ticket ${ticket} is accounted for.`) };
  });
}

async function told(agreementId: string, words: string): Promise<string> {
  return await tellingAddress(`/agreements/${agreementId}/tickets`, {}, words);
}
