/**
 * A person's name and e-mail address as a form gives them.
 */
import { z } from 'zod';
import { CONTROL_CHARACTER } from '../../domain/text/control-character.ts';
import { badInput } from '../read-input-rows.ts';

const name = (what: string) =>
  z
    .string()
    .trim()
    .min(1, { error: `must be ${what}` })
    .max(200, { error: 'must have 200 characters at most' })
    .refine((text) => !CONTROL_CHARACTER.test(text), {
      error: 'must be plain text, without control characters',
    });

const shapes = {
  name: name('your name'),
  party: name('the name of your farm or dairy'),
  email: z
    .string()
    .trim()
    .toLowerCase()
    .max(254, { error: 'must have 254 characters at most' })
    .pipe(z.email({ error: 'must be an e-mail address, like ana@example.org' })),
};

export type PersonField = keyof typeof shapes;

/** The named fields of what was given, trimmed (an address in small letters). Refuses `bad-input` with all that is wrong. */
export function readPerson<Field extends PersonField>(
  fields: readonly Field[],
  given: Readonly<Record<NoInfer<Field>, string>>,
): Record<Field, string> {
  const parsed = fields.map((field) => [field, shapes[field].safeParse(given[field])] as const);
  const problems = parsed.flatMap(([column, { error }]) =>
    (error?.issues ?? []).map(({ message }) => ({ column, message })),
  );
  if (problems.length > 0) throw badInput(problems);
  return Object.fromEntries(parsed.map(([field, { data }]) => [field, data])) as Record<Field, string>;
}
