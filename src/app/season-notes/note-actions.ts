/**
 * Notes about a season: a difference that is left standing, money for a sealed season, and what the other side says.
 */
'use server';

import { turned } from '../../documents/amount-strings.ts';
import { badInput } from '../../usecases/read-input-rows.ts';
import { answerSeasonNote } from '../../usecases/season-close/answer-season-note.ts';
import { bringForward } from '../../usecases/season-close/bring-forward.ts';
import { noteDifference, proposePastSeason } from '../../usecases/season-close/put-season-note.ts';
import type { FormState } from '../forms/form-state.ts';
import { keyOf, submit, textOf } from '../forms/submit.ts';
import { typedAmount } from '../money/typed-amount.ts';
import { currentContext, readerLocale } from '../server/current-caller.ts';
import { tellingAddress } from '../server/told.ts';

export async function putDifference(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const [load, ticket] = [textOf(sent, 'load'), textOf(sent, 'ticket')];
    await noteDifference(await currentContext(), {
      agreementId: textOf(sent, 'agreement'),
      ...(load === '' ? {} : { loadId: load }),
      ...(ticket === '' ? {} : { ticket }),
      amount: await signedAmount(sent),
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    return await back(sent, `It is put to ${textOf(sent, 'partner')}. It counts once they agree to it.`);
  });
}

export async function putPastSeason(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await proposePastSeason(await currentContext(), {
      agreementId: textOf(sent, 'agreement'),
      ofAgreementId: textOf(sent, 'of'),
      ticket: textOf(sent, 'ticket'),
      amount: await signedAmount(sent),
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    return await back(sent, `It is put to ${textOf(sent, 'partner')}. Nothing is owed until they agree.`);
  });
}

export async function agreeToNote(before: FormState, sent: FormData): Promise<FormState> {
  return await answer(before, sent, 'confirmed');
}

export async function refuseNote(before: FormState, sent: FormData): Promise<FormState> {
  return await answer(before, sent, 'refused');
}

export async function takeNoteBack(before: FormState, sent: FormData): Promise<FormState> {
  return await answer(before, sent, 'withdrawn');
}

export async function bringBalance(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await bringForward(await currentContext(), {
      agreementId: textOf(sent, 'agreement'),
      ofAgreementId: textOf(sent, 'of'),
      ...keyOf(sent),
    });
    return await back(sent, 'The balance is brought forward: it is owed under this agreement now.');
  });
}

const TOLD = {
  confirmed: 'Agreed. The other side is told.',
  refused: 'Refused. The other side is told.',
  withdrawn: 'Taken back.',
} as const;

async function answer(
  before: FormState,
  sent: FormData,
  word: 'confirmed' | 'refused' | 'withdrawn',
): Promise<FormState> {
  return await submit(before, sent, async () => {
    const { documentId } = await answerSeasonNote(await currentContext(), {
      noteId: textOf(sent, 'note'),
      answer: word,
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    return await back(
      sent,
      documentId === null
        ? TOLD[word]
        : 'Agreed, and a note of that amount is issued. The other side is told.',
    );
  });
}

/** The amount with the sign that its way says; "none" is 0. */
async function signedAmount(sent: FormData): Promise<string> {
  const way = textOf(sent, 'way');
  if (way === 'none') return '0';
  const amount = typedAmount(textOf(sent, 'amount'), await readerLocale());
  if (way !== 'more' && way !== 'less') {
    throw badInput([{ column: 'way', message: 'must be chosen: the amount alone does not say who owes it' }]);
  }
  if (amount.startsWith('-')) {
    throw badInput([
      { column: 'amount', message: 'must be written without a minus sign: the choice says which way' },
    ]);
  }
  return way === 'less' ? turned(amount) : amount;
}

/** Where the form said that it stands, if that is a page of the agreement. */
async function back(sent: FormData, told: string) {
  const place = textOf(sent, 'place');
  const page = PLACES.find((known) => known === place) ?? 'season-close';
  return { to: await tellingAddress(`/agreements/${textOf(sent, 'agreement')}/${page}`, {}, told) };
}

const PLACES = ['season-close', 'past-seasons', 'own-list'] as const;
