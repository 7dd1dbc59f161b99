/**
 * A wall-clock time that somebody typed, with its offset from UTC. In the hour that comes twice on the night when clocks
 * go back, it is asked which of the two it was.
 */
import { badInput } from '../../usecases/read-input-rows.ts';
import { type Done, textOf } from '../forms/submit.ts';
import { isWallClock, offsetsOf } from './wall-clock.ts';

/** Clocks may differ a little; a time of tomorrow is a slip of the hand. */
const AHEAD_MS = 30 * 60_000;

export interface TypedTime {
  /** The form's field. */
  readonly column: string;
  readonly timeZone: string;
  readonly now: number;
}

/** ISO 8601 with its offset, or the question which of two it is. Refuses `bad-input` for a time that never was or is to come. */
export function typedTime(sent: FormData, { column, timeZone, now }: TypedTime): string | Done {
  const time = textOf(sent, column).slice(0, 16);
  if (!isWallClock(time)) {
    throw badInput([{ column, message: 'must be a day and a time, like 14 September 2026, 21:40' }]);
  }
  const offsets = offsetsOf(time, timeZone);
  const [first, second] = offsets;
  if (first === undefined) {
    const message = `never was: on that night the clocks of ${timeZone} went forward past ${time.slice(11)}`;
    throw badInput([{ column, message }]);
  }
  const chosen = textOf(sent, 'offset');
  if (second === undefined || offsets.includes(chosen)) {
    const instant = `${time}:00${second === undefined ? first : chosen}`;
    if (Date.parse(instant) > now + AHEAD_MS) {
      throw badInput([{ column, message: 'is still to come; is the day right?' }]);
    }
    return instant;
  }
  return {
    refused: 'Nothing was recorded yet. One more question:',
    asked: {
      kind: 'choice',
      name: 'offset',
      label: `${time.slice(11)} came twice that night. Which one?`,
      options: [
        { value: first, label: `The first, before the clocks went back (${utc(first)})` },
        { value: second, label: `The second, after they went back (${utc(second)})` },
      ],
    },
  };
}

/** With a minus sign that no line breaks at. */
function utc(offset: string): string {
  return `UTC${offset.replace('-', '−')}`;
}
