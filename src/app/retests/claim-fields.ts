/**
 * What the asker makes of each figure, in an address and in a form.
 */
import { typedAmount } from '../money/typed-amount.ts';

const PREFIX = 'claimed ';

/** The name of a claim's field, by the id of the sample or load. */
export function claimName(id: string): string {
  return `${PREFIX}${id}`;
}

/** Claims that hold something, by id. */
export function claimsIn(
  texts: Readonly<Record<string, unknown>>,
  locale: string,
): Readonly<Record<string, string>> {
  return Object.fromEntries(
    Object.entries(texts).flatMap(([name, value]) =>
      name.startsWith(PREFIX) && typeof value === 'string' && value.trim() !== ''
        ? [[name.slice(PREFIX.length), typedAmount(value.trim(), locale)]]
        : [],
    ),
  );
}
