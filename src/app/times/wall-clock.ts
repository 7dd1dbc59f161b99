/**
 * Between a zone's wall clock and moments: the time now as a form shows it, and the offsets that a typed time can have.
 * On the night when clocks go back one hour comes twice; on the night when they go forward one does not come at all.
 */
import { zoneCalendar } from '../../domain/dates/instant.ts';
import { offsetsAt } from '../../domain/dates/wall-clock-offsets.ts';

const SHAPE = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/;

/** "2026-09-14T21:40" on the wall clock of the zone. */
export function wallClockNow(now: number, timeZone: string): string {
  return zoneCalendar(timeZone).wallClockAt(now).replace(' ', 'T');
}

/** Whether a text can be a wall-clock time at all. */
export function isWallClock(text: string): boolean {
  return SHAPE.test(text) && !Number.isNaN(Date.parse(`${text}Z`));
}

/**
 * The offsets from UTC, such as "-06:00", at which the zone's clock shows this time: one on most days, two in the hour
 * that comes twice, none in the hour that is left out.
 */
export function offsetsOf(wallClock: string, timeZone: string): readonly string[] {
  return offsetsAt(wallClock, zoneCalendar(timeZone));
}
