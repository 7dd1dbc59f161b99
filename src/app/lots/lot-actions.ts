/**
 * What is done to a lot from its own page: taking it back, attaching a report, noting how far it is.
 */
'use server';

import { MOST_FILE_BYTES } from '../../domain/files/file-kind.ts';
import { attachFile } from '../../usecases/lots/lot-files.ts';
import { withdrawLot } from '../../usecases/lots/post-lot.ts';
import { setDistance, setPlace } from '../../usecases/lots/set-place.ts';
import { badInput } from '../../usecases/read-input-rows.ts';
import { tidyFigure } from '../builder/figure-text.ts';
import type { FormState } from '../forms/form-state.ts';
import { submit, textOf } from '../forms/submit.ts';
import { currentContext } from '../server/current-caller.ts';
import { tellingAddress } from '../server/told.ts';

function keyOf(sent: FormData): { readonly key?: string } {
  const key = textOf(sent, 'key');
  return key === '' ? {} : { key };
}

export async function withdraw(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const lotId = textOf(sent, 'lot');
    if (textOf(sent, 'sure.yes') !== 'yes') {
      throw badInput([{ column: 'sure', message: 'Tick the box first.' }]);
    }
    const { endedOffers } = await withdrawLot(await currentContext(), { lotId, ...keyOf(sent) });
    const told =
      endedOffers === 0
        ? 'The lot is withdrawn.'
        : `The lot is withdrawn. ${endedOffers === 1 ? 'One offer on it has' : `${endedOffers} offers on it have`} ended, and the buyers are told.`;
    return { to: await tellingAddress(`/lots/${lotId}`, {}, told) };
  });
}

export async function attach(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const lotId = textOf(sent, 'lot');
    const file = sent.get('file');
    if (!(file instanceof File) || file.name === '') {
      throw badInput([{ column: 'file', message: 'must be chosen' }]);
    }
    // A little past the limit is enough to be refused for its length.
    const bytes = new Uint8Array(await file.slice(0, MOST_FILE_BYTES + 1).arrayBuffer());
    await attachFile(await currentContext(), { lotId, name: file.name, bytes, ...keyOf(sent) });
    const told = 'The file is with the lot; whoever sees the lot may open it.';
    return { to: await tellingAddress(`/lots/${lotId}`, {}, told) };
  });
}

export async function noteDistance(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const lotId = textOf(sent, 'lot');
    const [length, unit] = [tidyFigure(textOf(sent, 'length')), textOf(sent, 'unit')];
    const { isKnown } = await setDistance(await currentContext(), { lotId, length, unit, ...keyOf(sent) });
    const told = isKnown ? 'The distance by road is noted, for you alone.' : 'The distance by road is gone.';
    return { to: await tellingAddress(`/lots/${lotId}`, {}, told) };
  });
}

export async function notePlace(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const [latitude, longitude] = [
      tidyFigure(textOf(sent, 'latitude')),
      tidyFigure(textOf(sent, 'longitude')),
    ];
    const { isKnown } = await setPlace(await currentContext(), { latitude, longitude, ...keyOf(sent) });
    const told = isKnown ? 'Lots now show how far they are from you.' : 'Your place is gone from the record.';
    return { to: await tellingAddress('/lots', {}, told) };
  });
}
