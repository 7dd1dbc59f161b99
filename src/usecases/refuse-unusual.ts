/**
 * Figures that are possible and hardly ever right. They are recorded once whoever gives them says that they are right,
 * since nothing that is recorded is changed, only put right by a new version.
 */
import { Refusal } from './refusal.ts';

/** Refuses `unusual` where there is something to ask about and it was not confirmed. */
export function refuseUnusual(
  messages: readonly (string | undefined)[],
  confirmed: boolean | undefined,
): void {
  const asked = messages.filter((message) => message !== undefined);
  if (asked.length === 0 || confirmed) return;
  const named = asked.slice(0, MOST_NAMED).map((told) => (/[.?!]$/.test(told) ? told : `${told}.`));
  throw new Refusal(
    'unusual',
    `Nothing was recorded yet. ${named.join(' ')} What is recorded is never changed, only put right by a new version.`,
  );
}

/** As many as a person will read. */
const MOST_NAMED = 5;
