/**
 * Calendar dates: the local date of an instant in a time zone, and days between two dates.
 * Dates are YYYY-MM-DD texts, which order as they read.
 */
const formats = new Map<string, Intl.DateTimeFormat>();

export function localDate(instant: string, timeZone: string): string {
  const moment = Date.parse(instant);
  if (Number.isNaN(moment)) throw new Error(`not an instant: "${instant}"`);
  let format = formats.get(timeZone);
  if (format === undefined) {
    // Swedish writes dates as ISO 8601 does.
    format = new Intl.DateTimeFormat('sv-SE', {
      timeZone,
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
    });
    formats.set(timeZone, format);
  }
  return format.format(moment);
}

export function daysBetween(earlier: string, later: string): number {
  return (Date.parse(later) - Date.parse(earlier)) / 86_400_000;
}
