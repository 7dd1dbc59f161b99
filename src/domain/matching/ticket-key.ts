/**
 * The number on a ticket as two offices would call it the same.
 */

const BETWEEN = /[\s\p{Pd}_./#]+/gu;
/** Most tickets are numbers that need no change. */
const PLAIN = /^[A-NP-Z]*[1-9]\d*$/;
/** Of a number at the start, or behind a letter. */
const LEADING_ZEROS = /(^|\p{L})0+(?=\d)/gu;

/**
 * Without spaces, dashes, dots, slashes and number signs, in capitals, the letter O as zero, no leading zeros:
 * "t-0O12" is "T12". Null for what is blank.
 */
export function ticketKey(ticket: string | null): string | null {
  if (ticket === null || PLAIN.test(ticket)) return ticket;
  const plain = ticket.normalize('NFKC').replace(BETWEEN, '').toUpperCase().replaceAll('O', '0');
  return plain === '' ? null : plain.replace(LEADING_ZEROS, '$1');
}
