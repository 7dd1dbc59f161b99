/**
 * What every part of a money document's paper is set with.
 */
import type { MoneyDocument } from '../../domain/money/money-document.ts';
import { unsigned } from '../amount-strings.ts';
import type { Figures } from '../figures.ts';
import type { Sheet } from '../pdf/sheet.ts';
import type { ColumnSpace } from '../pdf/table-columns.ts';

export interface DocumentSetting {
  readonly document: MoneyDocument;
  readonly figures: Figures;
  readonly sheet: Sheet;
}

/** Where its tables stand. */
export function tableSpace({ sheet, figures }: DocumentSetting): ColumnSpace {
  return { left: sheet.left, width: sheet.width, gap: 12, decimalMark: figures.decimalMark };
}

/** "T1, delivered 2026-09-14". */
export function loadName({
  ticket,
  deliveredOn,
}: {
  readonly ticket: string;
  readonly deliveredOn: string;
}): string {
  return `Load ${ticket}, delivered ${deliveredOn}`;
}

/** "USD 1,986.85", which no line break parts, without a sign: the words beside it say which way. */
export function moneyText(
  amount: string,
  { document, figures }: Pick<DocumentSetting, 'document' | 'figures'>,
): string {
  return `${document.currency}\u00a0${figures.show(unsigned(amount))}`;
}
