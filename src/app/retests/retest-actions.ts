/**
 * Asking a question, reporting and answering figures, and ending a question between the two.
 */
'use server';

import { answerEnding, proposeEnding } from '../../usecases/retests/agree-ending.ts';
import { answerFigure } from '../../usecases/retests/answer-figure.ts';
import { askRetest } from '../../usecases/retests/ask-retest.ts';
import { reportFigure } from '../../usecases/retests/report-figure.ts';
import type { FormState } from '../forms/form-state.ts';
import { isConfirmed, keyOf, rowOf, submit, textOf } from '../forms/submit.ts';
import { typedAmount } from '../money/typed-amount.ts';
import { reportIn } from '../results/sent-report.ts';
import { currentContext, readerLocale } from '../server/current-caller.ts';
import { tellingAddress } from '../server/told.ts';
import { claimsIn } from './claim-fields.ts';

export async function askQuestion(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const agreementId = textOf(sent, 'agreement');
    const { retestIds } = await askRetest(await currentContext(), {
      agreementId,
      about: textOf(sent, 'about'),
      claims: claimsIn(
        Object.fromEntries([...sent].filter(([, value]) => typeof value === 'string')),
        await readerLocale(),
      ),
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    const [only] = retestIds;
    if (retestIds.length === 1) {
      const told = 'The question is asked, and the other side is told. What comes next stands below.';
      return { to: await tellingAddress(`/retests/${only}`, {}, told) };
    }
    const told = `${retestIds.length} questions are asked, and the other side is told.`;
    return { to: await tellingAddress('/retests', { agreement: agreementId }, told) };
  });
}

const FIGURE = ['tester', 'tested_by', 'method', 'part', 'tested_on', 'paid_by', 'scale'];
const TYPED = ['value', 'charge', 'gross', 'tare'];

export async function report(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const retestId = textOf(sent, 'retest');
    const locale = await readerLocale();
    const typed = TYPED.map((name) => [name, typedAmount(textOf(sent, name), locale)] as const);
    const { figureId } = await reportFigure(await currentContext(), {
      retestId,
      figure: {
        ...rowOf(sent, FIGURE),
        ...Object.fromEntries(typed.filter(([, text]) => text !== '')),
      },
      report: await reportIn(sent),
      confirmed: isConfirmed(sent),
      ...keyOf(sent),
    });
    const told =
      figureId === null
        ? 'The time for this test was over before it was reported, so it no longer counts. How the question ended stands below.'
        : 'The figure is recorded. It counts once the other side confirms it, or has said nothing for five days.';
    return { to: await tellingAddress(`/retests/${retestId}`, {}, told) };
  });
}

export async function confirmFigure(before: FormState, sent: FormData): Promise<FormState> {
  return await answered(before, sent, 'confirm');
}

export async function contestFigure(before: FormState, sent: FormData): Promise<FormState> {
  return await answered(before, sent, 'contest');
}

export async function takeFigureBack(before: FormState, sent: FormData): Promise<FormState> {
  return await answered(before, sent, 'withdraw');
}

async function answered(
  before: FormState,
  sent: FormData,
  answer: 'confirm' | 'contest' | 'withdraw',
): Promise<FormState> {
  return await submit(before, sent, async () => {
    const { isDecided } = await answerFigure(await currentContext(), {
      figureId: textOf(sent, 'figure'),
      answer,
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    const told = isDecided
      ? 'The question is decided by its rule. What followed stands below.'
      : answer === 'confirm'
        ? 'The figure counts. What comes next stands below.'
        : answer === 'contest'
          ? 'The figure is contested and does not count. Its test is called for again.'
          : 'The figure is taken back. Its test is still called for.';
    return { to: await tellingAddress(`/retests/${textOf(sent, 'retest')}`, {}, told) };
  });
}

export async function proposeEnd(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const retestId = textOf(sent, 'retest');
    const { proposalId } = await proposeEnding(await currentContext(), {
      retestId,
      ending: textOf(sent, 'ending'),
      value: typedAmount(textOf(sent, 'value'), await readerLocale()),
      bearer: textOf(sent, 'bearer'),
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    const told =
      proposalId === null
        ? 'The question was decided by its rule meanwhile.'
        : 'It is proposed. The question ends so once the other side confirms it.';
    return { to: await tellingAddress(`/retests/${retestId}`, {}, told) };
  });
}

export async function confirmEnd(before: FormState, sent: FormData): Promise<FormState> {
  return await answerEnd(before, sent, 'confirmed');
}

export async function refuseEnd(before: FormState, sent: FormData): Promise<FormState> {
  return await answerEnd(before, sent, 'refused');
}

export async function takeEndBack(before: FormState, sent: FormData): Promise<FormState> {
  return await answerEnd(before, sent, 'withdrawn');
}

async function answerEnd(
  before: FormState,
  sent: FormData,
  answer: 'confirmed' | 'refused' | 'withdrawn',
): Promise<FormState> {
  return await submit(before, sent, async () => {
    const { isOver } = await answerEnding(await currentContext(), {
      proposalId: textOf(sent, 'proposal'),
      answer,
      reason: textOf(sent, 'reason'),
      ...keyOf(sent),
    });
    const told = isOver
      ? 'The question has ended. What followed stands below.'
      : answer === 'refused'
        ? 'It is refused. The question goes on by its rule.'
        : 'It is taken back. The question goes on by its rule.';
    return { to: await tellingAddress(`/retests/${textOf(sent, 'retest')}`, {}, told) };
  });
}
