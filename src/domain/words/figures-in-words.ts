/**
 * Small pieces of sentences: money, lists, and who gains from a sign.
 */

/** "a, b and c". */
export function listed(items: readonly string[], last: string = 'and'): string {
  if (items.length < 2) return items.join('');
  return `${items.slice(0, -1).join(', ')} ${last} ${items.at(-1)}`;
}

/** The figure without its sign: "-4.25" is "4.25". */
export function unsigned(figure: string): string {
  return figure.replace(/^-/, '');
}

export function isBelowZero(figure: string): boolean {
  return figure.startsWith('-') && /[1-9]/.test(figure);
}

/** "is added" or "is taken off", by the sign of a rate. */
export function addedOrTaken(rate: string): string {
  return isBelowZero(rate) ? 'is taken off' : 'is added';
}

/** "1 decimal", "2 decimals". */
export function countOfDecimals(count: string): string {
  return `${count} decimal${count === '1' ? '' : 's'}`;
}

/** "1 day", "14 days". */
export function countOfDays(count: string): string {
  return `${count} day${count === '1' ? '' : 's'}`;
}

const ORDINAL_ENDINGS: Readonly<Record<string, string>> = { 1: 'st', 2: 'nd', 3: 'rd' };

/** "1st", "12th", "23rd", of a whole number in digits. */
export function ordinal(number: string): string {
  const digits = number.replace(/^0+(?=\d)/, '');
  return `${digits}${/1[123]$/.test(digits) ? 'th' : (ORDINAL_ENDINGS[digits.slice(-1)] ?? 'th')}`;
}

/** A text that somebody wrote, with the full stop that it may lack. */
export function asSentence(text: string): string {
  const words = text.trimEnd();
  return /[.!?…]$/.test(words) ? words : `${words}.`;
}
