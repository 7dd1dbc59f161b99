/**
 * Holding back what is questioned of a document, and letting go of it.
 */
'use server';

import { figuresFor } from '../../../../documents/figures.ts';
import { holdAmount, releaseHold } from '../../../../usecases/money/hold-amount.ts';
import type { FormState } from '../../../forms/form-state.ts';
import { keyOf, submit, textOf } from '../../../forms/submit.ts';
import { currentContext, readerLocale } from '../../../server/current-caller.ts';
import { tellingAddress } from '../../../server/told.ts';
import { typedAmount } from '../../typed-amount.ts';
import { WHOLE } from './whole-document.ts';

export async function holdBack(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const [documentId, loadId, locale] = [
      textOf(sent, 'document'),
      textOf(sent, 'load'),
      await readerLocale(),
    ];
    if (loadId === '') {
      return {
        refused: 'Nothing was recorded yet. Put this right and send it again:',
        problems: [{ field: 'load', message: 'is not chosen yet' }],
      };
    }
    const { held } = await holdAmount(await currentContext(), {
      documentId,
      ...(loadId === WHOLE ? {} : { loadId }),
      figure: typedAmount(textOf(sent, 'figure'), locale),
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    const told = `${figuresFor(locale).show(held)} is held back. The rest stays due on its day.`;
    return { to: await tellingAddress(`/money/documents/${documentId}`, {}, told) };
  });
}

export async function letGo(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const { released } = await releaseHold(await currentContext(), {
      holdId: textOf(sent, 'hold'),
      ...keyOf(sent),
    });
    const told = `${figuresFor(await readerLocale()).show(released)} is held no longer, and due again.`;
    return { to: await tellingAddress(`/money/documents/${textOf(sent, 'document')}`, {}, told) };
  });
}
