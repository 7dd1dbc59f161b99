/**
 * A moment as it is said in a sentence, on the wall clock of a time zone.
 */
import { dayInWords } from './day-words.ts';
import { type Instant, zoneCalendar } from './instant.ts';

/** "2 December, 14:05"; with the year where that is another one than now. */
export function momentInWords(
  moment: Instant,
  { timeZone, now }: { readonly timeZone: string; readonly now: Instant },
): string {
  const { wallClockAt, dateAt } = zoneCalendar(timeZone);
  const [day = '', time = ''] = wallClockAt(moment).split(' ');
  return `${dayInWords(day, dateAt(now))}, ${time}`;
}
