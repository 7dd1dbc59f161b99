/**
 * Records scales, and describes them anew.
 */
'use server';

import { SCALE_COLUMNS } from '../../domain/scales/scale-row.ts';
import { changeScale, recordScale } from '../../usecases/scales/keep-scale.ts';
import type { FormState } from '../forms/form-state.ts';
import { keyOf, rowOf, submit, textOf } from '../forms/submit.ts';
import { currentContext } from '../server/current-caller.ts';
import { tellingAddress } from '../server/told.ts';

const COLUMNS = [...SCALE_COLUMNS.required, ...SCALE_COLUMNS.optional];

export async function addScale(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await recordScale(await currentContext(), { scale: rowOf(sent, COLUMNS), ...keyOf(sent) });
    return { to: await tellingAddress('/scales', {}, `${textOf(sent, 'name')} is among your scales now.`) };
  });
}

export async function describeAnew(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const { version } = await changeScale(await currentContext(), {
      scaleId: textOf(sent, 'scale'),
      baseVersion: Number(textOf(sent, 'version')),
      scale: rowOf(sent, COLUMNS),
      ...keyOf(sent),
    });
    const told = `${textOf(sent, 'name')} stands as described in version ${version}.`;
    return { to: await tellingAddress('/scales', {}, told) };
  });
}
