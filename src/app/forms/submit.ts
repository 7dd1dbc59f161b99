/**
 * Runs what a form asks for. A refusal comes back beside the form with what was typed; a defect as a reference number.
 */
import { randomUUID } from 'node:crypto';
import { redirect } from 'next/navigation';
import type { Refusal } from '../../usecases/refusal.ts';
import { mailAfterwards } from '../server/mail-afterwards.ts';
import { logDefect, refusalOf } from '../server/refused.ts';
import type { FormState } from './form-state.ts';

const KEPT_LENGTH = 100_000;
const SECRET_FIELDS = ['password', 'present'];

/** One text of a form, '' where it is absent. */
export function textOf(sent: FormData, name: string): string {
  const value = sent.get(name);
  return typeof value === 'string' ? value.trim() : '';
}

/** The texts of the named fields that hold something, as a row of a table. */
export function rowOf(sent: FormData, names: readonly string[]): Record<string, string> {
  return Object.fromEntries(
    names.map((name) => [name, textOf(sent, name)] as const).filter(([, text]) => text !== ''),
  );
}

/** The request key of a form, as a use case takes it. */
export function keyOf(sent: FormData): { readonly key?: string } {
  const key = textOf(sent, 'key');
  return key === '' ? {} : { key };
}

/** Whether whoever sent it says that unusual figures are right. */
export function isConfirmed(sent: FormData): boolean {
  return textOf(sent, 'confirmed') === 'yes';
}

/** Where to go on, or what to show in place. */
export type Done = { readonly to: string } | Omit<FormState, 'turn' | 'typed'>;

/** Does `work`; goes on to another page, or returns what the form shows next. */
export async function submit(
  before: FormState,
  sent: FormData,
  work: () => Promise<Done>,
): Promise<FormState> {
  const again = { turn: before.turn + 1, typed: typedIn(sent), key: textOf(sent, 'key') };
  let done: Done;
  try {
    done = await work();
    mailAfterwards();
  } catch (error) {
    const refused = refusalOf(error);
    return refused
      ? { ...again, ...tellRefusal(refused) }
      : {
          ...again,
          refused: `Something is wrong on our side (reference ${logDefect(error)}). Send it again in a moment: nothing is recorded twice.`,
        };
  }
  if ('to' in done) redirect(done.to);
  return { ...again, ...done };
}

function tellRefusal({ code, message, problems }: Refusal): Partial<FormState> {
  switch (code) {
    case 'bad-input':
      return {
        refused: 'Nothing was recorded yet. Put this right and send it again:',
        problems: problems.map(({ column, message: fault }) => ({
          ...(column === undefined ? {} : { field: column }),
          message: fault,
        })),
      };
    case 'key-reused':
      return {
        refused:
          'This form was sent before with other figures, and those were recorded. If these are a new entry, send them again.',
        key: randomUUID(),
      };
    case 'unusual':
      return {
        refused: message,
        asked: {
          kind: 'choice',
          name: 'confirmed',
          label: 'Record it all the same?',
          options: [{ value: 'yes', label: 'Yes, it is right' }],
        },
      };
    case 'not-signed-in':
      return {
        refused:
          'You are signed out, and nothing was recorded. Sign in in another tab, then send this again: what you typed is still here.',
      };
    default:
      return { refused: message };
  }
}

function typedIn(sent: FormData): Record<string, string> {
  const typed: Record<string, string> = {};
  for (const [name, value] of sent) {
    if (typeof value !== 'string' || name.startsWith('$') || SECRET_FIELDS.includes(name)) continue;
    typed[name] = value.slice(0, KEPT_LENGTH);
  }
  return typed;
}
