/**
 * Today, for what belongs to no agreement and so to no time zone: the date in UTC.
 */
import { zoneCalendar } from '../../domain/dates/instant.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import type { Tools } from '../context.ts';

export function todayOf({ now }: Pick<Tools, 'now'>): LocalDate {
  return zoneCalendar('UTC').dateAt(now());
}
