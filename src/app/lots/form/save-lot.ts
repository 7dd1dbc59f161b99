/**
 * Writes down a new lot as a draft, or a change of one.
 */
'use server';

import { changeLot, draftLot } from '../../../usecases/lots/keep-lot.ts';
import { Refusal } from '../../../usecases/refusal.ts';
import { tellProblems } from '../../builder/builder-problems.ts';
import type { FormState } from '../../forms/form-state.ts';
import { submit, textOf } from '../../forms/submit.ts';
import { currentContext } from '../../server/current-caller.ts';
import { refusalOf } from '../../server/refused.ts';
import { tellingAddress } from '../../server/told.ts';
import { type ReadLotForm, readLotForm } from './read-lot-form.ts';

export async function saveLot(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const context = await currentContext();
    const form = readLotForm(sent);
    const key = textOf(sent, 'key');
    const toKeep = { document: form.document, address: form.address, ...(key === '' ? {} : { key }) };
    const lotId = textOf(sent, 'lot');
    if (lotId === '') {
      const drafted = await toldByField(form, () => draftLot(context, toKeep));
      const told = 'Written down as a draft, which nobody else sees. Look it over, then post it.';
      return { to: await tellingAddress(`/lots/${drafted.lotId}`, {}, told) };
    }
    await toldByField(form, () => changeLot(context, { lotId, ...toKeep }));
    return { to: await tellingAddress(`/lots/${lotId}`, {}, 'The change is written down.') };
  });
}

/** Faults of the document, each at the field that it was typed in, in words for a field. */
async function toldByField<Answer>({ fieldOf }: ReadLotForm, work: () => Promise<Answer>): Promise<Answer> {
  try {
    return await work();
  } catch (error) {
    const refused = refusalOf(error);
    if (!refused) throw error;
    const problems = refused.problems.map(({ column, message }) => ({
      message: tellProblems([{ path: [], message }])[0]?.message ?? message,
      ...(column === undefined ? {} : { column: fieldOf(column) }),
    }));
    throw new Refusal(refused.code, refused.message, problems);
  }
}
