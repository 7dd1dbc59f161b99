/**
 * The haul of a tried load, in the unit that the agreement prices.
 */
import type { Agreement } from '../agreement/document.ts';
import { type Exact, whole } from '../numbers/exact.ts';
import type { DistanceUnit } from '../quantities/units.ts';
import { needsDistance } from '../settlement/prepare-term.ts';

export interface Haul {
  readonly length: Exact;
  readonly unit: DistanceUnit;
}

/** A haul for feed whose way is not known yet (common practice, no source). */
const USUAL_HAUL: Readonly<Record<DistanceUnit, Exact>> = { mile: whole(10), km: whole(16) };

/** The unit of an agreement's first price per distance; undefined where it has none. */
export function haulUnit({ price }: Pick<Agreement, 'price'>): DistanceUnit | undefined {
  const term = price.find(needsDistance);
  if (!term) return undefined;
  return 'per' in term && term.per === 'mile' ? 'mile' : 'km';
}

/** The haul to try a load with: the given one or, where the agreement prices a distance, a usual one. */
export function haulFor(agreement: Pick<Agreement, 'price'>, given?: Haul): Haul | undefined {
  if (given) return given;
  const unit = haulUnit(agreement);
  return unit && { length: USUAL_HAUL[unit], unit };
}
