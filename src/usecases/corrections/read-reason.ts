/**
 * The reason that goes with every correction, in a sentence that both sides read.
 */
import { CONTROL_CHARACTER } from '../../domain/text/control-character.ts';
import { badInput } from '../read-input-rows.ts';

const LONGEST = 500;

/** Refuses `bad-input`. */
export function readReason(reason: string): string {
  const words = reason.trim().replace(/\s+/g, ' ');
  if (words === '') throw badInput([{ column: 'reason', message: 'must not be empty: say what was wrong' }]);
  if (words.length > LONGEST || CONTROL_CHARACTER.test(words)) {
    throw badInput([{ column: 'reason', message: `must be plain text of at most ${LONGEST} characters` }]);
  }
  return words;
}
