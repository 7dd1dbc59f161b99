/**
 * From the wall clock of a zone back to moments. On the night when clocks go back one hour comes twice; on the night
 * when they go forward one does not come at all.
 */
import type { ZoneCalendar } from './instant.ts';

const MINUTE = 60_000;
const DAY = 86_400_000;

/**
 * The offsets from UTC, such as "-06:00", at which the zone's clock shows this time ("2026-09-14T21:40"), the earlier
 * moment first: one on most days, two in the hour that comes twice, none in the hour that is left out.
 */
export function offsetsAt(wallClock: string, calendar: ZoneCalendar): readonly string[] {
  const asUtc = Date.parse(`${wallClock}Z`);
  const offsetAt = (instant: number) =>
    Date.parse(`${calendar.wallClockAt(instant).replace(' ', 'T')}Z`) - instant;
  const near = [asUtc - DAY, asUtc, asUtc + DAY].map(offsetAt);
  const fitting = [...new Set(near)].filter((offset) => offsetAt(asUtc - offset) === offset);
  return fitting.sort((a, b) => b - a).map(offsetText);
}

function offsetText(offset: number): string {
  const minutes = Math.abs(offset) / MINUTE;
  const two = (figure: number) => String(Math.trunc(figure)).padStart(2, '0');
  return `${offset < 0 ? '-' : '+'}${two(minutes / 60)}:${two(minutes % 60)}`;
}
