/**
 * Exact numbers as decimal strings: plain digits, a point, no exponent, no thousands mark, and never "-0".
 * Printing rounds half-up whatever the agreement's own rule, since a printed figure is for the eye; amounts arrive
 * here already rounded by that rule, as a count of minor units.
 */
import { decimalPlaces, type Exact, powerOfTen } from './exact.ts';
import { roundToUnits } from './rounding.ts';

/** Most decimals that a weight, quantity or price prints with. */
export const PRINTED_PLACES = 6;

/** A count of units of the last decimal, with all its decimals: 181582 at 2 places is "1815.82". */
export function printUnits(units: bigint, places: number): string {
  if (places === 0) return units.toString();
  const negative = units < 0n;
  const digits = (negative ? -units : units).toString().padStart(places + 1, '0');
  const point = digits.length - places;
  return `${negative ? '-' : ''}${digits.slice(0, point)}.${digits.slice(point)}`;
}

/** Drops the trailing zeros of a decimal string that has a point, and the point if nothing follows it. */
function trimZeros(text: string): string {
  let end = text.length;
  while (text.charCodeAt(end - 1) === 48) end--;
  return text.slice(0, text.charCodeAt(end - 1) === 46 ? end - 1 : end);
}

/** As `printUnits`, with trailing zeros dropped: 4250000 at 6 places is "4.25". */
export function printUnitsTrimmed(units: bigint, places: number): string {
  return places === 0 ? units.toString() : trimZeros(printUnits(units, places));
}

/** At most `places` decimals (six unless said), half-up, trailing zeros dropped: 1 ÷ 3 is "0.333333". */
export function printDecimal(value: Exact, places: number = PRINTED_PLACES): string {
  return printUnitsTrimmed(roundToUnits(value, places, 'half-up'), places);
}

/** Exactly `places` decimals, half-up: 31.3 at 2 places is "31.30". */
export function printFixed(value: Exact, places: number): string {
  return printUnits(roundToUnits(value, places, 'half-up'), places);
}

/**
 * As `printDecimal`, cut and not rounded, with "…" behind it where digits were left out: 2 ÷ 3 is "0.666666…", and
 * 1 ÷ 4 is "0.25". A figure that goes on is never shown as more than it is, so that it cannot seem to round twice.
 */
export function printWithEllipsis(value: Exact, places: number = PRINTED_PLACES): string {
  const own = decimalPlaces(value);
  if (own !== undefined && own <= places) return printUnitsTrimmed(value.n, own);
  const scaled = value.n * powerOfTen(places);
  const units = scaled / value.d;
  const shown = printUnitsTrimmed(units, places);
  return units * value.d === scaled ? shown : `${shown}…`;
}

/** A decimal string with a true minus sign, which is as wide as a digit, for the keyboard's hyphen: "−71.83". */
export function withMinus(figure: string): string {
  return figure.startsWith('-') ? `−${figure.slice(1)}` : figure;
}

/** A decimal string less what counts for nothing: "007.50" is "7.50" and "-0" is "0". Its decimals stay. */
export function plainDecimal(text: string): string {
  const digits = text.replace(/^-?0*(?=\d)/, '');
  return text.startsWith('-') && /[1-9]/.test(digits) ? `-${digits}` : digits;
}

/** A decimal string as a person writes it: `plainDecimal` with a true minus sign. */
export function printWritten(text: string): string {
  return withMinus(plainDecimal(text));
}
