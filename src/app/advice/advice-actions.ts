/**
 * What is done in advice: asking for it, writing in it, drafting terms, ending it.
 */
'use server';

import type { Subject } from '../../domain/advice/subject.ts';
import { endAdvice } from '../../usecases/advice/end-advice.ts';
import { proposeDraft } from '../../usecases/advice/propose-draft.ts';
import { writeNote } from '../../usecases/advice/write-note.ts';
import { badInput } from '../../usecases/read-input-rows.ts';
import { askAdviser } from '../../usecases/sharing/ask-adviser.ts';
import type { FormState } from '../forms/form-state.ts';
import { submit, textOf } from '../forms/submit.ts';
import { addressOf } from '../place/asked.ts';
import { backTo } from '../server/ask.ts';
import { currentContext } from '../server/current-caller.ts';
import { shownLink } from '../sharing/shown-link.ts';

export async function ask(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const link = await askAdviser(await currentContext(), subjectIn(sent));
    return await shownLink(link, 'your adviser');
  });
}

function subjectIn(sent: FormData): Subject {
  const [lotId, offerId] = [textOf(sent, 'lot'), textOf(sent, 'offer')];
  if (lotId !== '') return { lotId };
  return offerId === '' ? { agreementId: textOf(sent, 'agreement') } : { offerId };
}

export async function note(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const key = textOf(sent, 'key');
    const { noteId } = await writeNote(await currentContext(), {
      adviceId: textOf(sent, 'advice'),
      text: textOf(sent, 'text'),
      ...(key === '' ? {} : { key }),
    });
    return { to: thereAgain(sent, { note: noteId }) };
  });
}

export async function end(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const adviceId = textOf(sent, 'advice');
    await endAdvice(await currentContext(), { adviceId });
    return { to: thereAgain(sent, { ended: adviceId }) };
  });
}

/** The same place of the page, with what is new: an address that differs by its mark alone would not be asked for anew. */
function thereAgain(sent: FormData, done: Readonly<Record<string, string>>): string {
  return `${addressOf(backTo(textOf(sent, 'back')), done)}#advice`;
}

export async function draft(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const [adviceId, key] = [textOf(sent, 'advice'), textOf(sent, 'key')];
    const { draftId } = await proposeDraft(await currentContext(), {
      adviceId,
      document: documentIn(textOf(sent, 'terms')),
      ...(key === '' ? {} : { key }),
    });
    return { to: `/advice/${adviceId}/drafts/${draftId}` };
  });
}

function documentIn(text: string): Readonly<Record<string, unknown>> {
  try {
    const document: unknown = JSON.parse(text);
    if (typeof document === 'object' && document !== null && !Array.isArray(document)) {
      return document as Readonly<Record<string, unknown>>;
    }
  } catch {
    // Told below.
  }
  throw badInput([{ column: 'terms', message: 'did not come through whole. Write them again' }]);
}
