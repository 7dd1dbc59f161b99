/**
 * Between a zone's wall clock and moments: the time now as a form shows it, and the offsets that a typed time can have.
 * On the night when clocks go back one hour comes twice; on the night when they go forward one does not come at all.
 */
import { zoneCalendar } from '../../domain/dates/instant.ts';

const SHAPE = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/;
const MINUTE = 60_000;
const DAY = 86_400_000;

/** "2026-09-14T21:40" on the wall clock of the zone. */
export function wallClockNow(now: number, timeZone: string): string {
  return zoneCalendar(timeZone).wallClockAt(now).replace(' ', 'T');
}

/** Whether a text can be a wall-clock time at all. */
export function isWallClock(text: string): boolean {
  return SHAPE.test(text) && !Number.isNaN(Date.parse(`${text}Z`));
}

/**
 * The offsets from UTC, such as "-06:00", at which the zone's clock shows this time, the earlier moment first: one on
 * most days, two in the hour that comes twice, none in the hour that is left out.
 */
export function offsetsOf(wallClock: string, timeZone: string): readonly string[] {
  const calendar = zoneCalendar(timeZone);
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
