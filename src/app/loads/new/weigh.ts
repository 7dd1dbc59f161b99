/**
 * Records what the scale operator typed.
 */
'use server';

import { type AgreementView, readAgreementWords } from '../../../usecases/agreements/read-agreement-words.ts';
import { recordLoads } from '../../../usecases/loads/record-loads.ts';
import { badInput } from '../../../usecases/read-input-rows.ts';
import type { Problem } from '../../../usecases/refusal.ts';
import type { FormState } from '../../forms/form-state.ts';
import { type Done, isConfirmed, rowOf, submit, textOf } from '../../forms/submit.ts';
import { addressOf } from '../../place/asked.ts';
import { currentContext, readerLocale } from '../../server/current-caller.ts';
import { typedTime } from '../../times/typed-time.ts';
import { readWeight } from './read-weight.ts';

export async function weigh(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async (): Promise<Done> => {
    const context = await currentContext();
    const agreementId = textOf(sent, 'agreement');
    const agreement = await readAgreementWords(context, { agreementId });
    const { timeZone } = agreement;
    const time = typedTime(sent, { column: 'delivered_at', timeZone, now: context.now() });
    if (typeof time !== 'string') return time;
    const row = {
      ...rowOf(sent, ['ticket', 'truck', 'unit']),
      ...(await weights(sent)),
      ...sampleOf(sent, agreement),
      ...distance(sent),
      delivered_at: time,
    };
    const key = textOf(sent, 'key');
    const [load] = await recordLoads(context, {
      agreementId,
      loads: [row],
      confirmed: isConfirmed(sent),
      ...(key === '' ? {} : { key }),
    });
    return {
      to: addressOf('/loads/new', {
        agreement: agreementId,
        done: load?.id,
        before: load?.isNew === false ? 1 : undefined,
      }),
    };
  });
}

/** The weights as numbers. Refuses `bad-input` for those that can be read two ways. */
async function weights(sent: FormData): Promise<Readonly<Record<string, string>>> {
  const reading = { unit: textOf(sent, 'unit'), locale: await readerLocale() };
  const problems: Problem[] = [];
  const read = ['gross', 'tare'].map((column): [string, string] => {
    const found = readWeight(textOf(sent, column), reading);
    if ('weight' in found) return [column, found.weight];
    problems.push({ column, message: found.wrong });
    return [column, ''];
  });
  if (problems.length > 0) throw badInput(problems);
  return Object.fromEntries(read);
}

/** The sample that was named or, where each load has its own, one called as the ticket. Refuses `bad-input`. */
function sampleOf(
  sent: FormData,
  { sampling, testsNeeded }: Pick<AgreementView, 'sampling' | 'testsNeeded'>,
): Readonly<Record<string, string>> {
  const named = textOf(sent, 'sample');
  if (named !== '') return { sample: named };
  if (!testsNeeded || sampling === 'per-day') return {};
  const ticket = textOf(sent, 'ticket');
  if (sampling === 'per-load') return ticket === '' ? {} : { sample: ticket };
  throw badInput([
    {
      column: 'sample',
      message: 'must be named: the price needs its figures, and one sample serves several loads',
    },
  ]);
}

function distance(sent: FormData): Readonly<Record<string, string>> {
  const length = textOf(sent, 'distance');
  if (length === '') return {};
  return textOf(sent, 'distance_unit') === 'km' ? { km: length } : { miles: length };
}
