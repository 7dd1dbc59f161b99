/**
 * Posts a lot, or shows it to others than before.
 */
'use server';

import { PUBLIC_PARTS } from '../../../../domain/lots/lot-document.ts';
import { postLot } from '../../../../usecases/lots/post-lot.ts';
import { badInput } from '../../../../usecases/read-input-rows.ts';
import type { FormState } from '../../../forms/form-state.ts';
import { submit, textOf } from '../../../forms/submit.ts';
import { currentContext } from '../../../server/current-caller.ts';
import { tellingAddress } from '../../../server/told.ts';

export async function post(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const [lotId, audience, key] = [textOf(sent, 'lot'), textOf(sent, 'audience'), textOf(sent, 'key')];
    const isListed = audience === 'everyone' && textOf(sent, 'listed') === 'yes';
    const publicParts = PUBLIC_PARTS.filter((part) => textOf(sent, `public.${part}`) === 'yes');
    if (isListed && publicParts.length === 0) {
      throw badInput([{ column: 'public', message: 'needs a tick; or choose to show nothing' }]);
    }
    await postLot(await currentContext(), {
      lotId,
      audience,
      ...(isListed ? { publicParts } : {}),
      ...(key === '' ? {} : { key }),
    });
    const told =
      audience === 'everyone'
        ? 'It is posted; everyone who is signed in sees it.'
        : 'It is posted for whom you invite.';
    return { to: await tellingAddress(`/lots/${lotId}`, {}, told) };
  });
}
