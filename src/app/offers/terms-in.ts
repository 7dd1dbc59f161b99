/**
 * What forms about offers send: the terms, a message, and for how many days they stand.
 */
import { badInput } from '../../usecases/read-input-rows.ts';
import type { Field } from '../forms/field.ts';
import { textOf } from '../forms/submit.ts';

/** The agreement file out of the field `terms`. Refuses `bad-input` where it is no group in braces. */
export function termsIn(sent: FormData): Readonly<Record<string, unknown>> {
  try {
    const document: unknown = JSON.parse(textOf(sent, 'terms'));
    if (typeof document === 'object' && document !== null && !Array.isArray(document)) {
      return document as Readonly<Record<string, unknown>>;
    }
  } catch {
    // Told below.
  }
  throw badInput([{ column: 'terms', message: 'did not come through whole. Look at the file’s text again' }]);
}

/** Message and days, as every version has them. */
export function sendingIn(sent: FormData): { readonly message: string; readonly validDays: string } {
  return { message: textOf(sent, 'message'), validDays: textOf(sent, 'validDays') };
}

/** The fields that go with every version, named after who reads the message. */
export function sendingFields(other: string): readonly Field[] {
  return [
    {
      kind: 'lines',
      name: 'message',
      label: `A few words to ${other}`,
      hint: 'Short, or nothing. They are no part of the agreement: only the terms are signed.',
    },
    {
      kind: 'text',
      name: 'validDays',
      label: 'Days for which it stands',
      hint: 'Until then the other side can sign it; after that nobody can.',
      keys: 'decimal',
      unit: 'days from now',
      value: '7',
    },
  ];
}
