/**
 * Records that samples were taken, sealed in parts and handed over.
 */
'use server';

import { SAMPLE_PARTS } from '../../../../domain/agreement/retest-rules.ts';
import { readAgreementWords } from '../../../../usecases/agreements/read-agreement-words.ts';
import { badInput } from '../../../../usecases/read-input-rows.ts';
import type { Refusal } from '../../../../usecases/refusal.ts';
import { handOver } from '../../../../usecases/samples/hand-over.ts';
import { sealParts } from '../../../../usecases/samples/seal-parts.ts';
import { takeSample } from '../../../../usecases/samples/take-sample.ts';
import type { FormState } from '../../../forms/form-state.ts';
import { type Done, keyOf, rowOf, submit, textOf } from '../../../forms/submit.ts';
import { currentContext } from '../../../server/current-caller.ts';
import { refusalOf } from '../../../server/refused.ts';
import { tellingAddress } from '../../../server/told.ts';
import { typedTime } from '../../../times/typed-time.ts';
import { PART_FIELDS } from './sample-fields.ts';

const TICKED = 'tickets.';

export async function recordTaking(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async (): Promise<Done> => {
    const context = await currentContext();
    const agreementId = textOf(sent, 'agreement');
    const { timeZone } = await readAgreementWords(context, { agreementId });
    const takenAt = typedTime(sent, { column: 'taken_at', timeZone, now: context.now() });
    if (typeof takenAt !== 'string') return takenAt;
    const ticked = [...sent.keys()].flatMap((name) =>
      name.startsWith(TICKED) ? [name.slice(TICKED.length)] : [],
    );
    const listed = textOf(sent, 'other_tickets')
      .split(/[,;\n]/)
      .map((ticket) => ticket.trim());
    const tickets = [textOf(sent, 'tickets'), ...ticked, ...listed].filter((ticket) => ticket !== '');
    const sample = textOf(sent, 'sample');
    const { named } = await takeSample(context, {
      agreementId,
      taking: { ...rowOf(sent, ['sample', 'taken_by', 'how']), taken_at: takenAt },
      tickets,
      ...keyOf(sent),
    });
    const loads = named === 0 ? '' : named === 1 ? ' One load names it now.' : ` ${named} loads name it now.`;
    return { to: await told(agreementId, `It is recorded how sample ${sample} was taken.${loads}`, sample) };
  });
}

export async function recordParts(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const agreementId = textOf(sent, 'agreement');
    const sample = textOf(sent, 'sample');
    const sealed = SAMPLE_PARTS.filter((part) =>
      ['seal', 'kept_where', 'kept_until'].some((name) => textOf(sent, `${name}_${part}`) !== ''),
    );
    if (sealed.length === 0) {
      throw badInput([
        { column: 'seal_laboratory', message: 'must be given for at least one part; all four are empty' },
      ]);
    }
    const parts = sealed.map((part) => ({
      sample,
      part,
      ...Object.fromEntries(
        PART_FIELDS.map((name) => [name, textOf(sent, `${name}_${part}`)] as const).filter(
          ([, text]) => text !== '',
        ),
      ),
    }));
    try {
      await sealParts(await currentContext(), { agreementId, parts, ...keyOf(sent) });
    } catch (error) {
      const refused = refusalOf(error);
      throw refused ? inFields(refused, sealed) : error;
    }
    const count = sealed.length === 1 ? 'One part' : `${sealed.length} parts`;
    return { to: await told(agreementId, `${count} of sample ${sample} under seal.`, sample) };
  });
}

/** A refusal with each fault at the field of its row. */
function inFields(refused: Refusal, sealed: readonly string[]): Refusal {
  if (refused.code !== 'bad-input') return refused;
  return badInput(
    refused.problems.map(({ row = 0, column, message }) => ({
      column: column === undefined || column === 'sample' ? 'sample' : `${column}_${sealed[row] ?? ''}`,
      message,
    })),
  );
}

export async function recordHandover(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async (): Promise<Done> => {
    const context = await currentContext();
    const agreementId = textOf(sent, 'agreement');
    const { timeZone } = await readAgreementWords(context, { agreementId });
    const handedAt = typedTime(sent, { column: 'handed_at', timeZone, now: context.now() });
    if (typeof handedAt !== 'string') return handedAt;
    const given = rowOf(sent, ['to_whom', 'kept_where', 'kept_until', 'seal_intact']);
    await handOver(context, {
      partId: textOf(sent, 'part'),
      handover: { ...given, handed_at: handedAt },
      ...keyOf(sent),
    });
    const seal = textOf(sent, 'seal');
    return {
      to: await told(agreementId, `The part under seal ${seal} is with ${textOf(sent, 'to_whom')} now.`),
    };
  });
}

async function told(agreementId: string, words: string, sample?: string): Promise<string> {
  return await tellingAddress(`/agreements/${agreementId}/samples`, { sample }, words);
}
