/**
 * A day and a while as they are said in a sentence.
 */
import type { LocalDate } from './local-date.ts';

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

/** "2 December"; "2 January 2027" where that is another year than the one it is said in. */
export function dayInWords(date: LocalDate | string, today: LocalDate | string): string {
  const [year = '', month = '', day = ''] = date.split('-');
  const said = `${Number(day)} ${MONTHS[Number(month) - 1]}`;
  return today.startsWith(year) ? said : `${said} ${year}`;
}

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

/** "just now", "20 minutes ago", "one hour ago", "3 days ago": from one moment to a later, in milliseconds. */
export function agoInWords(then: number, now: number): string {
  const gone = Math.max(0, now - then);
  if (gone < MINUTE) return 'just now';
  const [count, unit] =
    gone < HOUR ? [gone / MINUTE, 'minute'] : gone < DAY ? [gone / HOUR, 'hour'] : [gone / DAY, 'day'];
  const whole = Math.trunc(count);
  return whole === 1 ? `one ${unit} ago` : `${whole} ${unit}s ago`;
}
