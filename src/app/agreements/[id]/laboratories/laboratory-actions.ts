/**
 * Lets a laboratory enter results itself, and ends that. The link is shown this once; the record keeps only what proves it.
 */
'use server';

import { endLaboratory, inviteLaboratory } from '../../../../usecases/laboratories/let-laboratory.ts';
import type { FormState } from '../../../forms/form-state.ts';
import { keyOf, submit, textOf } from '../../../forms/submit.ts';
import { currentContext } from '../../../server/current-caller.ts';
import { hereAddress } from '../../../server/here-address.ts';
import { tellingAddress } from '../../../server/told.ts';

export async function invite(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const laboratory = textOf(sent, 'laboratory');
    const { secret, expiresAt } = await inviteLaboratory(await currentContext(), {
      agreementId: textOf(sent, 'agreement'),
      laboratory,
    });
    const until = new Date(expiresAt).toISOString().slice(0, 10);
    return {
      told: `Hand this link to the first owner of ${laboratory}. It works once, until ${until}, and is shown only now.`,
      link: `${await hereAddress()}/join/${secret}`,
    };
  });
}

export async function end(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const agreementId = textOf(sent, 'agreement');
    await endLaboratory(await currentContext(), {
      agreementId,
      accessId: textOf(sent, 'access'),
      ...keyOf(sent),
    });
    const told = `${textOf(sent, 'name')} enters no more results here. What it reported stays.`;
    return { to: await tellingAddress(`/agreements/${agreementId}/laboratories`, {}, told) };
  });
}
