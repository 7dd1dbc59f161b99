/**
 * What the page of a price series lets its reader do: settle who enters it, put a quote right, contest one.
 */
'use server';

import { proposeCorrection } from '../../../../../usecases/corrections/agree-correction.ts';
import { correctQuote } from '../../../../../usecases/corrections/correct-recorded.ts';
import { contestQuote } from '../../../../../usecases/prices/contest-quote.ts';
import { setSeriesTerms } from '../../../../../usecases/prices/set-series-terms.ts';
import type { FormState } from '../../../../forms/form-state.ts';
import { isConfirmed, submit, textOf } from '../../../../forms/submit.ts';
import { currentContext } from '../../../../server/current-caller.ts';
import { refusalOf } from '../../../../server/refused.ts';
import { tellingAddress } from '../../../../server/told.ts';

function placeOf(sent: FormData): {
  readonly agreementId: string;
  readonly series: string;
  readonly path: string;
} {
  const [agreementId, series] = [textOf(sent, 'agreement'), textOf(sent, 'series')];
  return { agreementId, series, path: `/agreements/${agreementId}/series/${encodeURIComponent(series)}` };
}

function keyOf(sent: FormData): { readonly key?: string } {
  const key = textOf(sent, 'key');
  return key === '' ? {} : { key };
}

export async function settleSeries(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const { agreementId, series, path } = placeOf(sent);
    await setSeriesTerms(await currentContext(), {
      agreementId,
      series,
      source: textOf(sent, 'source'),
      enteredBy: textOf(sent, 'entered_by'),
      contestDays: textOf(sent, 'contest_days'),
      ...keyOf(sent),
    });
    return { to: await tellingAddress(path, {}, 'It is settled so from now on.') };
  });
}

/** Directly while nothing has settled from it; otherwise it is proposed to the other side. */
export async function putQuoteRight(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const context = await currentContext();
    const { agreementId, path } = placeOf(sent);
    const [id, price, reason] = [textOf(sent, 'quote'), textOf(sent, 'price'), textOf(sent, 'reason')];
    const figures = { price };
    const rest = { agreementId, figures, reason, confirmed: isConfirmed(sent) };
    try {
      await correctQuote(context, { ...rest, id, ...keyOf(sent) });
    } catch (error) {
      if (refusalOf(error)?.code !== 'already-settled') throw error;
      const { loads } = await proposeCorrection(context, { ...rest, subject: 'quote', subjectId: id });
      return { to: await tellingAddress(path, {}, proposedWords(loads)) };
    }
    return { to: await tellingAddress(path, {}, `The quote is put right: ${price}.`) };
  });
}

export async function contest(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const { agreementId, path } = placeOf(sent);
    const { loads } = await contestQuote(await currentContext(), {
      agreementId,
      quoteId: textOf(sent, 'quote'),
      price: textOf(sent, 'price'),
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    return { to: await tellingAddress(path, {}, proposedWords(loads)) };
  });
}

function proposedWords(loads: number): string {
  const many = loads === 1 ? 'One load' : `${loads} loads`;
  const settled = loads === 0 ? 'No load has settled from it yet.' : `${many} would settle anew.`;
  return `It is proposed to the other side. ${settled} Nothing changes until they confirm it.`;
}
