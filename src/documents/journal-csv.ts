/**
 * Entries of the journal as CSV that any accounting program can take: a row for each account that an entry touches,
 * with its debit or its credit, never both.
 */
import { signOf } from './amount-strings.ts';
import { safeCsvRow } from './csv.ts';

export interface JournalExportRow {
  /** Local date of the entry. */
  readonly date: string;
  readonly entryNumber: string;
  /** "Invoice 17"; empty where no document made the entry. */
  readonly document: string;
  readonly accountCode: string;
  readonly accountName: string;
  readonly memo: string;
  /** Decimal strings above zero; the other side is empty. */
  readonly debit: string;
  readonly credit: string;
  /** ISO 4217. */
  readonly currency: string;
}

const HEAD = [
  'date',
  'entry_number',
  'document',
  'account_code',
  'account_name',
  'memo',
  'debit',
  'credit',
  'currency',
];

function side(amount: string): string | { readonly figure: string } {
  return amount === '' ? '' : { figure: amount };
}

/** The header row. */
export function journalCsvHead(): string {
  return safeCsvRow(HEAD);
}

/** One row. Throws RangeError unless one side alone holds an amount, above zero, which is a fault of the caller. */
export function journalCsvRow(row: JournalExportRow): string {
  const { debit, credit } = row;
  const amount = debit === '' ? credit : debit;
  if ((debit === '') === (credit === '') || signOf(amount) !== 1) {
    throw new RangeError(
      `entry ${row.entryNumber} must have a debit or a credit above zero: found "${debit}" and "${credit}"`,
    );
  }
  return safeCsvRow([
    row.date,
    row.entryNumber,
    row.document,
    row.accountCode,
    row.accountName,
    row.memo,
    side(debit),
    side(credit),
    row.currency,
  ]);
}

/** The whole file, a header row first. */
export function journalCsv(rows: readonly JournalExportRow[]): string {
  return journalCsvHead() + rows.map(journalCsvRow).join('');
}
