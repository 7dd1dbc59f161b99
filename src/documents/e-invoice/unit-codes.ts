/**
 * Units of settlement lines by UN/ECE Recommendation 20, and what has to be said in words where it has no code.
 */
import type { DistanceUnit, WeightUnit } from '../../domain/quantities/units.ts';

/**
 * LBR pound, KGM kilogram, CWA hundred pound (the hundredweight of the United States; CWI is the British one),
 * STN short ton, TNE tonne, SMI statute mile, KMT kilometre (names read in public copies of the list).
 */
const CODES: Readonly<Record<WeightUnit | DistanceUnit, string>> = {
  lb: 'LBR',
  kg: 'KGM',
  cwt: 'CWA',
  'short-ton': 'STN',
  tonne: 'TNE',
  mile: 'SMI',
  km: 'KMT',
};

/** "One": a count of something that the line names. */
const ONE = 'C62';

/**
 * The code of a line's unit. A bushel is C62: the list's BUA and BUI are volumes, and our bushels are weights whose
 * pounds the line's derivation says. They are not turned into pounds, since the document does not hold the pounds as a
 * figure and the printed rate is money a bushel. So are a load, and the currency of a line that is a percent.
 */
export function unitCode(unit: string | null): string {
  return unit !== null && Object.hasOwn(CODES, unit) ? CODES[unit as keyof typeof CODES] : ONE;
}

/** What a C62 counts; null where the code says it all. */
export function unitInWords(unit: string | null): string | null {
  if (unit === null || unitCode(unit) !== ONE) return null;
  if (unit === 'bushel') return 'quantity in bushels by weight, of the pounds that the note says';
  if (unit === 'load') return 'quantity in loads';
  return `quantity in ${unit}`;
}
