/**
 * The reason that goes with every correction, in a sentence that both sides read.
 */
import { CONTROL_CHARACTER } from '../../domain/text/control-character.ts';
import { badInput } from '../read-input-rows.ts';

const LONGEST = 500;

/** Refuses `bad-input`; `what` it should say stands in the refusal of an empty one. */
export function readReason(reason: string, what: string = 'what was wrong'): string {
  const words = reason.trim().replace(/\s+/g, ' ');
  if (words === '') throw badInput([{ column: 'reason', message: `must not be empty: say ${what}` }]);
  if (words.length > LONGEST || CONTROL_CHARACTER.test(words)) {
    throw badInput([{ column: 'reason', message: `must be plain text of at most ${LONGEST} characters` }]);
  }
  return words;
}
