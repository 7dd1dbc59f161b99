/**
 * Moments in time, as a scale ticket writes them (ISO 8601 with an offset), and the local date they fall on in an
 * agreement's time zone. The zone's rules come from the language's own `Intl` tables.
 */
import { dateOfDayNumber, type LocalDate, parseLocalDate } from './local-date.ts';

const SHAPE = /^(\d{4}-\d{2}-\d{2})T(\d{2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?(Z|[+-]\d{2}(?::?\d{2})?)$/;
const HAS_NO_OFFSET = /^\d{4}-\d{2}-\d{2}(?:[T ]\d{2}:?\d{2}(?::?\d{2})?(?:[.,]\d+)?)?$/;
const MINUTE = 60_000;
const DAY = 86_400_000;
/** Zone offsets change on whole quarters of an hour, so one look-up serves a quarter. */
const QUARTER = 15 * MINUTE;
const LARGEST_OFFSET_HOURS = 14;

/** Milliseconds since 1970-01-01T00:00:00Z. */
export type Instant = number;

/** An instant in UTC as ISO 8601 with milliseconds: "2026-09-15T03:40:00.000Z". */
export function whenText(instant: Instant): string {
  return new Date(instant).toISOString();
}

/**
 * Reads `2026-09-14T21:40:00-06:00` (seconds optional, `Z` for UTC).
 * Returns what is wrong, in words, for anything else: the offset is never guessed.
 */
export function parseInstant(text: string): { instant: Instant } | { wrong: string } {
  const match = SHAPE.exec(text);
  if (!match) {
    return HAS_NO_OFFSET.test(text)
      ? { wrong: 'a time with its offset from UTC, like 2026-09-14T21:40:00-06:00; the offset is missing' }
      : { wrong: 'a date and time with its offset from UTC, like 2026-09-14T21:40:00-06:00' };
  }
  const [, date = '', hours = '', minutes = '', seconds = '0', fraction = '', offset = ''] = match;
  const minutesOffUtc = offsetMinutes(offset);
  if (parseLocalDate(date) === undefined) return { wrong: `a date on the calendar; ${date} is not` };
  if (Number(hours) > 23 || Number(minutes) > 59 || Number(seconds) > 59) {
    return { wrong: 'a time of day from 00:00:00 to 23:59:59' };
  }
  if (minutesOffUtc === undefined) return { wrong: 'an offset from UTC of at most 14 hours' };
  const local =
    Date.parse(`${date}T${hours}:${minutes}:${seconds.padStart(2, '0')}Z`) +
    Number(fraction.slice(0, 3).padEnd(3, '0'));
  return { instant: local - minutesOffUtc * MINUTE };
}

function offsetMinutes(offset: string): number | undefined {
  if (offset === 'Z') return 0;
  const hours = Number(offset.slice(1, 3));
  const minutes = Number(offset.slice(3).replace(':', '') || '0');
  const total = hours * 60 + minutes;
  if (minutes > 59 || total > LARGEST_OFFSET_HOURS * 60) return undefined;
  return offset.startsWith('-') ? -total : total;
}

/** True where the platform knows the zone by this IANA name. */
export function isTimeZone(name: string): boolean {
  // An offset such as "+02:00" is accepted by some platforms, but knows no clock change.
  if (!/^[A-Za-z]/.test(name)) return false;
  if (KNOWN_ZONES.has(name)) return true;
  try {
    new Intl.DateTimeFormat('en-US', { timeZone: name });
  } catch {
    return false;
  }
  if (KNOWN_ZONES.size < MOST_KNOWN_ZONES) KNOWN_ZONES.add(name);
  return true;
}

/** Names that the platform was asked for: it takes a while to answer, and the same few come again and again. */
const KNOWN_ZONES = new Set<string>();
/** There are some six hundred; upper and lower case make more of them. */
const MOST_KNOWN_ZONES = 1_000;

/** Tells local dates and times in one time zone. */
export interface ZoneCalendar {
  readonly dateAt: (instant: Instant) => LocalDate;
  /** `YYYY-MM-DD HH:MM` on the wall clock of the zone. */
  readonly wallClockAt: (instant: Instant) => string;
}

/** A calendar for an IANA zone. Throws where `isTimeZone` is false. */
export function zoneCalendar(timeZone: string): ZoneCalendar {
  const format = new Intl.DateTimeFormat('en-US', {
    timeZone,
    hourCycle: 'h23',
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
    second: 'numeric',
  });
  const offsets = new Map<number, number>();
  const dates = new Map<number, LocalDate>();

  const offsetAt = (instant: Instant): number => {
    const quarter = Math.floor(instant / QUARTER);
    let offset = offsets.get(quarter);
    if (offset === undefined) {
      offset = offsetFromParts(format, quarter * QUARTER);
      offsets.set(quarter, offset);
    }
    return offset;
  };
  return {
    dateAt: (instant) => {
      const day = Math.floor((instant + offsetAt(instant)) / DAY);
      let date = dates.get(day);
      if (date === undefined) {
        date = dateOfDayNumber(day);
        dates.set(day, date);
      }
      return date;
    },
    wallClockAt: (instant) =>
      new Date(instant + offsetAt(instant)).toISOString().slice(0, 16).replace('T', ' '),
  };
}

function offsetFromParts(format: Intl.DateTimeFormat, instant: Instant): number {
  const part: Record<string, number> = {};
  for (const { type, value } of format.formatToParts(instant)) part[type] = Number(value);
  const { year = 0, month = 1, day = 1, hour = 0, minute = 0, second = 0 } = part;
  return Date.UTC(year, month - 1, day, hour, minute, second) - instant;
}
