/**
 * How far two places are apart, roughly: for sorting and a first look at haulage. It prices nothing that is settled, and
 * is the one figure here that is not exact.
 */

export interface Place {
  /** Degrees north, as a decimal string. */
  readonly latitude: string;
  /** Degrees east, as a decimal string. */
  readonly longitude: string;
}

/** Mean radius of the earth in kilometres (IUGG, 6371.0088), value from memory. */
const EARTH_KM = 6371.0088;
const KM_PER_MILE = 1.609344;

/**
 * The great-circle distance between two places, in whole miles or kilometres, by the haversine formula; roads are
 * longer. One degree along a meridian is 69 miles.
 */
export function roughDistance(one: Place, other: Place, unit: 'mile' | 'km'): string {
  const [lat1, lon1, lat2, lon2] = [one.latitude, one.longitude, other.latitude, other.longitude].map(
    (degrees) => (Number(degrees) * Math.PI) / 180,
  ) as [number, number, number, number];
  const half = (angle: number) => Math.sin(angle / 2) ** 2;
  const chord = half(lat2 - lat1) + Math.cos(lat1) * Math.cos(lat2) * half(lon2 - lon1);
  const km = 2 * EARTH_KM * Math.asin(Math.min(1, Math.sqrt(chord)));
  return String(Math.round(unit === 'km' ? km : km / KM_PER_MILE));
}
