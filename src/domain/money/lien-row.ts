/**
 * A lender's notice of a lien as a form gives it. What a notice on farm products names: the secured party, the debtor, the
 * crop year, the county, and what payment is to look like; it is given within a year before the sale (7 USC 1631, read).
 */
import type { LocalDate } from '../dates/local-date.ts';
import type { Row } from '../tables/row.ts';

export const LIEN_COLUMNS = {
  required: ['lender', 'debtor', 'crop_year', 'county', 'conditions', 'received_on'],
  optional: [],
} as const;

export interface LienGiven {
  readonly lender: string;
  readonly debtor: string;
  readonly cropYear: string;
  readonly county: string;
  readonly conditions: string;
  readonly receivedOn: LocalDate;
}

/** A notice, or undefined where the row has faults. */
export function readLienRow(row: Row, today: LocalDate): LienGiven | undefined {
  const [lender, debtor, county] = [row.name('lender'), row.name('debtor'), row.name('county')];
  const conditions = row.name('conditions');
  const cropYear = row.text('crop_year');
  if (!/^(19[7-9]\d|2[01]\d\d)$/.test(cropYear)) {
    row.fault('crop_year', `must be a year, like 2026; found ${JSON.stringify(cropYear)}`);
  }
  const receivedOn = row.date('received_on');
  if (receivedOn && receivedOn > today) row.fault('received_on', `is still to come; today is ${today}`);
  if (row.problems.length > 0 || !receivedOn) return undefined;
  return { lender, debtor, cropYear, county, conditions, receivedOn };
}
