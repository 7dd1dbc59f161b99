/**
 * What is decided about loads: settle, accept or refuse, name a pricing date.
 */
'use server';

import { recordChoices } from '../../usecases/loads/record-choices.ts';
import { recordElections } from '../../usecases/prices/record-elections.ts';
import { badInput } from '../../usecases/read-input-rows.ts';
import { settleLoads } from '../../usecases/settlements/settle-loads.ts';
import type { FormState } from '../forms/form-state.ts';
import { keyOf, rowOf, submit, textOf } from '../forms/submit.ts';
import { currentContext } from '../server/current-caller.ts';
import { tellingAddress } from '../server/told.ts';
import { settledWords } from './waiting-words.ts';

/** All that are ready under an agreement. */
export async function settle(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const done = await settleLoads(await currentContext(), {
      agreementId: textOf(sent, 'agreement'),
      ...keyOf(sent),
    });
    return { to: await tellingAddress('/loads', {}, settledWords(done)) };
  });
}

export async function settleOne(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const loadId = textOf(sent, 'load');
    const agreementId = textOf(sent, 'agreement');
    await settleLoads(await currentContext(), { agreementId, loadId, ...keyOf(sent) });
    return { to: `/loads/${loadId}` };
  });
}

export async function choose(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const choice = {
      ...rowOf(sent, ['went_to']),
      ...{ ticket: textOf(sent, 'ticket'), choice: textOf(sent, 'choice') },
    };
    if (choice.choice === '') {
      throw badInput([{ column: 'choice', message: 'must be made: accept the load or refuse it' }]);
    }
    await recordChoices(await currentContext(), {
      agreementId: textOf(sent, 'agreement'),
      choices: [choice],
      ...keyOf(sent),
    });
    return { to: `/loads/${textOf(sent, 'load')}` };
  });
}

export async function nameDate(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const election = {
      ticket: textOf(sent, 'ticket'),
      series: textOf(sent, 'series'),
      date: textOf(sent, 'date'),
    };
    await recordElections(await currentContext(), {
      agreementId: textOf(sent, 'agreement'),
      elections: [election],
      ...keyOf(sent),
    });
    return { to: `/loads/${textOf(sent, 'load')}` };
  });
}
