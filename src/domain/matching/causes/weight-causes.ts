/**
 * Why two weights of one load differ. Figures in different units are compared in the unit of the one that may have
 * slipped, to the decimals that it is written with.
 */
import { compare, type Exact, subtract } from '../../numbers/exact.ts';
import { printFixed } from '../../numbers/printing.ts';
import { fromPounds, SCALE_UNITS } from '../../quantities/units.ts';
import type { ReadRow } from '../list-row.ts';
import {
  type Causes,
  type SlipDetail,
  type Trial,
  tryCauses,
  WEIGHT_CAUSES,
  type WeightCause,
} from './cause.ts';
import { type DigitPair, digitTrials } from './digit-slips.ts';
import type { Tares } from './tares.ts';
import { alignedDigits, isRounded, isWrittenAs, placesOf } from './written.ts';

/** The causes that explain why the net weights differ. */
export function weightCauses(
  sides: { readonly mine: ReadRow; readonly record: ReadRow },
  tares: Tares,
): Causes<WeightCause> {
  const trials: Record<WeightCause, Trial<ReadRow>> = {
    rounded: (own, other) =>
      isRounded(own.row.net, fromPounds(other.pounds, own.row.unit)) ? {} : undefined,
    'other-unit': otherUnit,
    'gross-for-net': (own, other) => (isGross(own, other) ? {} : undefined),
    'tare-of-another-truck': (own, other) => shownTare(own, other, tares),
    ...digitTrials(digitPairs),
    'implied-tare-of-another-truck': (own, other) => impliedTare(own, other, tares),
  };
  return tryCauses(WEIGHT_CAUSES, trials, sides);
}

function isSame(a: Exact, b: Exact | undefined): boolean {
  return b !== undefined && compare(a, b) === 0;
}

/** The net weight is the other's gross; or the list's own, where the other has none. */
function isGross(own: ReadRow, { grossPounds }: ReadRow): boolean {
  if (grossPounds) return isSame(own.pounds, grossPounds);
  return isSame(own.pounds, own.grossPounds) && own.tarePounds?.n !== 0n;
}

/** The figure is the other's weight in another unit of scales than it claims to be in, rounded as it is written. */
function otherUnit(own: ReadRow, other: ReadRow): SlipDetail | undefined {
  const { net, unit } = own.row;
  const isIn = SCALE_UNITS.find(
    (tried) => tried !== unit && isWrittenAs(net, fromPounds(other.pounds, tried)),
  );
  return isIn === undefined ? undefined : { units: { isIn, takenFor: unit } };
}

/** Gross less tare is net, so that net was worked out and a slip is in one of the two. */
function isWorkedOut({ grossPounds, tarePounds, pounds }: ReadRow): boolean {
  return (
    grossPounds !== undefined && tarePounds !== undefined && isSame(subtract(grossPounds, tarePounds), pounds)
  );
}

/** The tare in the list is that of another truck, and net was worked out with it. */
function shownTare(own: ReadRow, other: ReadRow, tares: Tares): SlipDetail | undefined {
  const { tarePounds, grossPounds } = own;
  if (!tarePounds || !grossPounds || !isWorkedOut(own)) return undefined;
  if (!isSame(grossPounds, other.grossPounds) || isSame(tarePounds, other.tarePounds)) return undefined;
  const load = tares.ofAnotherTruck(tarePounds, { own, other });
  return load && { load };
}

/** The list shows no tare, and the other's gross less what it must have been is the tare of another truck that day. */
function impliedTare(own: ReadRow, other: ReadRow, tares: Tares): SlipDetail | undefined {
  if (own.tarePounds || !other.grossPounds) return undefined;
  const implied = subtract(other.grossPounds, own.pounds);
  if (isSame(implied, other.tarePounds)) return undefined;
  const load = tares.ofAnotherTruck(implied, { own, other, withinDays: 1 });
  return load && { load };
}

/** Which figures a slip of the hand can be in: the one weight that differs where net was worked out in both lists. */
function digitPairs(own: ReadRow, other: ReadRow): DigitPair[] {
  if (isWorkedOut(own) && isWorkedOut(other)) {
    const sameGross = own.grossPounds !== undefined && isSame(own.grossPounds, other.grossPounds);
    const sameTare = own.tarePounds !== undefined && isSame(own.tarePounds, other.tarePounds);
    if (sameGross) return digitPair('tare', own, other);
    if (sameTare) return digitPair('gross', own, other);
  }
  return digitPair('net', own, other);
}

const POUNDS_OF = { gross: 'grossPounds', tare: 'tarePounds', net: 'pounds' } as const;

function digitPair(part: 'gross' | 'tare' | 'net', own: ReadRow, other: ReadRow): DigitPair[] {
  const text = own.row[part];
  const pounds = other[POUNDS_OF[part]];
  const written = other.row[part];
  if (text === null || written === null || pounds === undefined) return [];
  const expected =
    own.row.unit === other.row.unit ? written : printFixed(fromPounds(pounds, own.row.unit), placesOf(text));
  const digits = alignedDigits(text, expected);
  return digits ? [{ ...digits, detail: { part } }] : [];
}
