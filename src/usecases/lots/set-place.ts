/**
 * Where the caller's party is, and how far a lot is by road: for its own eyes, to sort lots and reckon haulage.
 */
import { compare, decimal, parseDecimal, ZERO } from '../../domain/numbers/exact.ts';
import { DISTANCE_UNITS } from '../../domain/quantities/units.ts';
import {
  type PlaceRow,
  readPlace as readPlaceRow,
  writeDistance,
  writePlace,
} from '../../store/rows/place-rows.ts';
import { type Context, permit } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { badInput } from '../read-input-rows.ts';
import type { Problem } from '../refusal.ts';
import { findLot } from './find-lot.ts';

export interface PlaceToSet {
  /** Degrees north and east; both empty take the place away. */
  readonly latitude: string;
  readonly longitude: string;
  readonly key?: string;
}

/** Refuses `not-allowed`, and `bad-input` for what is no place on earth. */
export async function setPlace(
  context: Context,
  { latitude, longitude, key }: PlaceToSet,
): Promise<{ readonly isKnown: boolean }> {
  permit(context, 'make-offer');
  const input = { latitude, longitude };
  return await doOnce(context, { verb: 'set-place', subject: 'place', key, input }, async (tx) => {
    const { partyId } = context.caller;
    const isKnown = latitude !== '' || longitude !== '';
    if (!isKnown) {
      await writePlace(tx, partyId, undefined);
      return { isKnown };
    }
    const problems = [
      ...degreeProblems('latitude', latitude, '90'),
      ...degreeProblems('longitude', longitude, '180'),
    ];
    if (problems.length > 0) throw badInput(problems);
    await writePlace(tx, partyId, input);
    return { isKnown };
  });
}

function degreeProblems(column: string, text: string, most: string): Problem[] {
  const degrees = text.length > 20 ? undefined : parseDecimal(text);
  const isThere =
    degrees && compare(degrees, decimal(most)) <= 0 && compare(degrees, decimal(`-${most}`)) >= 0;
  return isThere ? [] : [{ column, message: `must be degrees from -${most} to ${most}, like 43.6` }];
}

/** The caller's own place, if it was told. Refuses `not-allowed`. */
export async function readPlace(context: Context): Promise<PlaceRow | undefined> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, readPlaceRow);
}

export interface DistanceToSet {
  readonly lotId: string;
  /** By road, one way; empty takes it away. */
  readonly length: string;
  /** "mile" or "km". */
  readonly unit: string;
  readonly key?: string;
}

/** Longest way that is written down. */
const FARTHEST = decimal('10000');

/** Refuses `not-allowed`, `bad-input`, and `not-found` for a lot that the caller's party may not see. */
export async function setDistance(
  context: Context,
  { lotId, length, unit, key }: DistanceToSet,
): Promise<{ readonly isKnown: boolean }> {
  permit(context, 'make-offer');
  const input = { length, unit };
  return await doOnce(context, { verb: 'set-distance', subject: lotId, key, input }, async (tx) => {
    await findLot(tx, lotId);
    const known = DISTANCE_UNITS.find((name) => name === unit);
    const way = length === '' ? ZERO : parseDecimal(length);
    const isWay = way !== undefined && compare(way, ZERO) >= 0 && compare(way, FARTHEST) <= 0;
    const problems = [
      ...(isWay ? [] : [{ column: 'length', message: 'must be a distance from 0 to 10000, like 34.5' }]),
      ...(known ? [] : [{ column: 'unit', message: `must be ${DISTANCE_UNITS.join(' or ')}` }]),
    ];
    if (problems.length > 0 || !known) throw badInput(problems);
    const isKnown = length !== '';
    await writeDistance(tx, context.caller.partyId, {
      lotId,
      length: isKnown ? length : undefined,
      unit: known,
    });
    return { isKnown };
  });
}
