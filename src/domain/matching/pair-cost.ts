/**
 * Whether two rows that no number brought together may be one load, and how far they are from being it.
 */
import { ticketCauses } from './causes/other-causes.ts';
import { isSameWeight } from './differences.ts';
import type { ReadRow } from './list-row.ts';

/** How far two weights of one load may lie apart: the larger of the two, of the heavier weight. */
export interface Tolerance {
  /** Whole pounds. */
  readonly pounds: number;
  /** Hundredths of a percent, under 10,000. */
  readonly basisPoints: number;
}

/** A truck that stood on another scale, and no more: 100 lb, or 1 %. */
export const USUAL_TOLERANCE: Tolerance = { pounds: 100, basisPoints: 100 };

/** What two rows cost that stay alone. More than any pair, so that a pair is made where one may be. */
export const ALONE = 1000;

const WEIGHT = 600;
const OTHER_DAY = 150;
const TRUCK_UNKNOWN = 20;
const SLIPPED_TICKET = 60;
const OTHER_TICKET = 150;
const TICKET_UNKNOWN = 20;
const OTHER_FIGURE = 10;
const OTHER_CONTENT = 1;

/** Thousandths of a pound that a row may lie apart from one of its own weight. */
export function reach(thousandths: number, { pounds, basisPoints }: Tolerance): number {
  return Math.max(pounds * 1000, Math.floor((Math.abs(thousandths) * basisPoints) / 10_000));
}

/** Thousandths of a pound within which every row lies that may be paired with this one, lighter or heavier. */
export function windowOf(thousandths: number, { pounds, basisPoints }: Tolerance): number {
  const above = Math.ceil((Math.abs(thousandths) * basisPoints) / (10_000 - basisPoints));
  return Math.max(pounds * 1000, above) + 1;
}

/** Whether two weights lie no further apart than the tolerance. */
export function isWithin(a: ReadRow, b: ReadRow, tolerance: Tolerance): boolean {
  return Math.abs(a.thousandths - b.thousandths) <= reach(heavier(a, b), tolerance);
}

function heavier(a: ReadRow, b: ReadRow): number {
  return Math.max(Math.abs(a.thousandths), Math.abs(b.thousandths));
}

/** How two rows are compared. */
export interface Likening {
  readonly tolerance: Tolerance;
  /** Whether the two lists number loads alike: then a number that differs speaks against a pair. */
  readonly isNumberedAlike: boolean;
  /** Null for a row without a number that tells loads apart. */
  readonly numberOf: (row: ReadRow) => string | null;
  /** Whether the row's number stands in the other list. */
  readonly isAnswered: (row: ReadRow) => boolean;
}

/**
 * A whole number below `ALONE`, or undefined where the two can hardly be one load: more than a day apart, of two trucks,
 * or too far apart in weight. Where both have a number and the two differ, the weights must be the same, and on the same
 * day but where the number is a slip of the hand; a slip has the tolerance with the same truck on the same day, if neither
 * number stands in the other list. It costs the same the other way round.
 */
export function pairCost(a: ReadRow, b: ReadRow, likening: Likening): number | undefined {
  const { tolerance, isNumberedAlike } = likening;
  const days = Math.abs(a.day - b.day);
  if (days > 1) return undefined;
  if (a.truck !== null && b.truck !== null && a.truck !== b.truck) return undefined;
  const apart = Math.abs(a.thousandths - b.thousandths);
  const most = reach(heavier(a, b), tolerance);
  if (apart > most) return undefined;
  const isSame = isSameWeight(a, b);
  const ticket = isNumberedAlike ? ticketCost(a, b, { isSame, ...likening }) : 0;
  if (ticket === undefined) return undefined;
  // Rounded up, so that only the same weight costs nothing.
  const weight = isSame || most === 0 ? 0 : Math.ceil((Math.max(1, apart) * WEIGHT) / most);
  return (
    Math.min(weight, WEIGHT) +
    days * OTHER_DAY +
    ((a.truck === null) === (b.truck === null) ? 0 : TRUCK_UNKNOWN) +
    ticket +
    (isOther(a.row.gross, b.row.gross) || isOther(a.row.tare, b.row.tare) ? OTHER_FIGURE : 0) +
    (isOther(a.row.amount, b.row.amount) ? OTHER_FIGURE : 0) +
    (a.content === b.content ? 0 : OTHER_CONTENT)
  );
}

function isOther(a: string | null, b: string | null): boolean {
  return a !== null && b !== null && a !== b;
}

function ticketCost(
  a: ReadRow,
  b: ReadRow,
  { isSame, numberOf, isAnswered }: Likening & { readonly isSame: boolean },
): number | undefined {
  const [one, other] = [numberOf(a), numberOf(b)];
  if (one === null && other === null) return 0;
  if (one === null || other === null) return TICKET_UNKNOWN;
  if (one === other) return 0;
  if (ticketCauses({ mine: a, record: b }).length > 0) {
    const isSameTruck = a.truck !== null && b.truck !== null && a.day === b.day;
    const isFree = !isAnswered(a) && !isAnswered(b);
    return isSame || (isSameTruck && isFree) ? SLIPPED_TICKET : undefined;
  }
  const isContradicted =
    a.row.unit === b.row.unit && (isOther(a.row.gross, b.row.gross) || isOther(a.row.tare, b.row.tare));
  return isSame && a.day === b.day && !isContradicted ? OTHER_TICKET : undefined;
}
