/**
 * What every part of a retest's paper is set with, and how it names sides, figures, amounts and moments.
 */
import { parseInstant, zoneCalendar } from '../../domain/dates/instant.ts';
import { currencyDecimals } from '../../domain/money/currency.ts';
import { decimal } from '../../domain/numbers/exact.ts';
import { printFixed } from '../../domain/numbers/printing.ts';
import type { Side } from '../../domain/retests/costs.ts';
import type { RetestRecord } from '../../domain/retests/retest-record.ts';
import { unsigned } from '../amount-strings.ts';
import type { Figures } from '../figures.ts';
import type { Sheet } from '../pdf/sheet.ts';
import type { ColumnSpace } from '../pdf/table-columns.ts';

export interface RetestSetting {
  readonly record: RetestRecord;
  readonly figures: Figures;
  readonly sheet: Sheet;
}

/** What words are made from; the sheet is for those who draw. */
export type RetestWords = Pick<RetestSetting, 'record' | 'figures'>;

export const SIDES: readonly Side[] = ['seller', 'buyer'];

/** Where its tables stand. */
export function tableSpace({ sheet, figures }: RetestSetting): ColumnSpace {
  return { left: sheet.left, width: sheet.width, gap: 10, decimalMark: figures.decimalMark };
}

/** "Starch of sample S1", "Net weight of load T5". */
export function subjectOf({ name, sample, ticket }: RetestRecord): string {
  return sample === null ? `${name} of load ${ticket ?? ''}` : `${name} of sample ${sample}`;
}

/** The same inside a sentence; abbreviations keep their capitals. */
export function subjectInside(record: RetestRecord): string {
  const subject = subjectOf(record);
  const isWord = /^.[a-z]/.test(subject);
  return isWord ? `${subject.charAt(0).toLowerCase()}${subject.slice(1)}` : subject;
}

/** "52.40 % of dry matter"; no line breaks between a figure and its unit. */
export function withUnit(value: string, { record, figures }: RetestWords): string {
  const shown = figures.show(value);
  return record.unit === '' ? shown : `${shown}\u00a0${record.unit.replaceAll('-', ' ')}`;
}

/** An amount with the currency's decimals, without its sign: the words beside it say which way. */
export function amountText(amount: string, { record, figures }: RetestWords): string {
  const decimals = currencyDecimals(record.currency) ?? 0;
  return figures.show(printFixed(decimal(unsigned(amount)), decimals));
}

/** "USD 1,986.85", which no line break parts. */
export function moneyText(amount: string, words: RetestWords): string {
  return `${words.record.currency}\u00a0${amountText(amount, words)}`;
}

/** A moment on the wall clock of the agreement: "2026-10-01 21:40". Throws RangeError on another text. */
export function clockText(moment: string, { timeZone }: RetestRecord): string {
  const read = parseInstant(moment);
  if ('wrong' in read) throw new RangeError(`A moment must be ${read.wrong}; found ${moment}`);
  return zoneCalendar(timeZone).wallClockAt(read.instant);
}

/** The same where the unit was said before: a long one is left out. */
export function shortly(value: string, words: RetestWords): string {
  return words.record.about === 'weight' ? withUnit(value, words) : words.figures.show(value);
}

/** What somebody wrote, told apart from the paper's own words; a sentence ends with it. */
export function quoted(text: string): string {
  return `“${text}”${/[.!?…]$/.test(text) ? '' : '.'}`;
}
