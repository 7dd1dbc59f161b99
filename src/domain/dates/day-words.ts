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
