/**
 * Where a party is and how far lots are from it by road, as it wrote both down for itself.
 */
import type { DistanceUnit } from '../../domain/quantities/units.ts';
import type { Transaction } from '../open-store.ts';

export interface PlaceRow {
  /** Degrees north and east. */
  readonly latitude: string;
  readonly longitude: string;
}

/** The party's own place; undefined where it has told none. */
export async function readPlace(tx: Transaction): Promise<PlaceRow | undefined> {
  const [row] = await tx.$queryRawUnsafe<PlaceRow[]>(
    'SELECT latitude::text, longitude::text FROM party_place',
  );
  return row;
}

/** Writes the party's place over the one before; undefined takes it away. */
export async function writePlace(
  tx: Transaction,
  partyId: string,
  place: PlaceRow | undefined,
): Promise<void> {
  if (!place) {
    await tx.partyPlace.deleteMany({ where: { partyId } });
    return;
  }
  await tx.partyPlace.upsert({ where: { partyId }, create: { partyId, ...place }, update: place });
}

export interface DistanceRow {
  readonly lotId: string;
  readonly length: string;
  readonly unit: DistanceUnit;
}

/** Distances by road that the party wrote down, each of a lot. */
export async function readDistances(tx: Transaction): Promise<readonly DistanceRow[]> {
  return await tx.$queryRawUnsafe<DistanceRow[]>(
    'SELECT lot_id AS "lotId", length::text, unit FROM lot_distance',
  );
}

/** Writes how far a lot is over what stood there; an undefined length takes it away. */
export async function writeDistance(
  tx: Transaction,
  partyId: string,
  { lotId, length, unit }: Omit<DistanceRow, 'length'> & { readonly length: string | undefined },
): Promise<void> {
  if (length === undefined) {
    await tx.lotDistance.deleteMany({ where: { partyId, lotId } });
    return;
  }
  await tx.lotDistance.upsert({
    where: { partyId_lotId: { partyId, lotId } },
    create: { partyId, lotId, length, unit },
    update: { length, unit },
  });
}
