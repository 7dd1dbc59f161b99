/**
 * Figures as they were written down: how many decimals a text has, and two texts as digits that can be compared.
 */
import { decimal, type Exact, powerOfTen } from '../../numbers/exact.ts';
import { roundToUnits } from '../../numbers/rounding.ts';

/** Decimals of a decimal string: "23.50" has 2. */
export function placesOf(text: string): number {
  const point = text.indexOf('.');
  return point < 0 ? 0 : text.length - point - 1;
}

/** Whether the text is what is written for the value, rounded half-up to the decimals that the text has. */
export function isWrittenAs(text: string, value: Exact): boolean {
  const places = placesOf(text);
  return roundToUnits(decimal(text), places, 'half-up') === roundToUnits(value, places, 'half-up');
}

/** Whether `own` is `other` rounded half-up to the fewer decimals that `own` is written with. */
export function isRounded(own: string, other: Exact): boolean {
  const places = placesOf(own);
  const units = roundToUnits(other, places, 'half-up');
  const isExact = units * other.d === other.n * powerOfTen(places);
  return !isExact && isWrittenAs(own, other);
}

/**
 * Both to the decimals of the one with more of them, as digits without sign and point: "23.5" and "23.56" are "2350" and
 * "2356". Nothing for figures of two signs: no slip of a digit explains those.
 */
export function alignedDigits(own: string, other: string): { own: string; other: string } | undefined {
  const places = Math.max(placesOf(own), placesOf(other));
  if (own.startsWith('-') !== other.startsWith('-')) return undefined;
  return { own: digits(own, places), other: digits(other, places) };
}

function digits(text: string, places: number): string {
  return roundToUnits(decimal(text), places, 'half-up').toString().replace('-', '');
}
