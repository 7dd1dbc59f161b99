/**
 * What every part of a statement's paper is set with, and how it says which way an amount is owed: always in words,
 * since a sign is easily overlooked.
 */
import type { Statement } from '../../domain/money/statement.ts';
import { signOf, unsigned } from '../amount-strings.ts';
import type { Figures } from '../figures.ts';
import type { Sheet } from '../pdf/sheet.ts';
import type { TableStyle } from '../pdf/table.ts';
import type { Column, ColumnSpace } from '../pdf/table-columns.ts';

export interface StatementSetting {
  readonly statement: Statement;
  readonly figures: Figures;
  readonly sheet: Sheet;
}

/** Where its tables stand. */
export function tableSpace({ sheet, figures }: StatementSetting): ColumnSpace {
  return { left: sheet.left, width: sheet.width, gap: 10, decimalMark: figures.decimalMark };
}

/** A little smaller than other papers, for seven columns side by side. */
export function tableStyle({ sheet }: StatementSetting): TableStyle {
  return { ...sheet.table, body: { ...sheet.body, size: 9 }, total: { ...sheet.strong, size: 9 } };
}

/** The words beside a figure: "owed to you". */
export function directionOf(amount: string): string {
  const sign = signOf(amount);
  return sign === 0 ? 'even' : sign > 0 ? 'owed to you' : 'you owe';
}

/** Money on account is no debt that anybody has to pay: the words say who paid it. */
export function onAccountDirection(amount: string): string {
  const sign = signOf(amount);
  return sign === 0 ? '' : sign > 0 ? 'paid by you' : 'paid to you';
}

/** "1,986.85", without its sign. */
export function sizeText(amount: string, figures: Figures): string {
  return figures.show(unsigned(amount));
}

/** "USD 1,986.85", which no line break parts, without its sign. */
export function moneyText(
  amount: string,
  { statement, figures }: Pick<StatementSetting, 'statement' | 'figures'>,
): string {
  return `${statement.currency}\u00a0${sizeText(amount, figures)}`;
}

export const WHO_OWES: Column = { head: 'Which way', align: 'left', width: 'fit' };

/** An agreement's number can be long; it wraps rather than take the place of words. */
const WIDEST_AGREEMENT = 70;

/** The column that names the agreement; none where the statement covers one only. */
export function agreementColumn({ statement, sheet }: StatementSetting): Column[] {
  if (statement.agreements.length < 2) return [];
  const style = sheet.body;
  const widths = ['Agreement', ...statement.agreements].map((text) => style.face.width(text, style.size));
  return [{ head: 'Agreement', align: 'left', width: Math.min(WIDEST_AGREEMENT, Math.max(...widths)) }];
}

/** The cell for that column. */
export function agreementCell(agreement: string, { statement }: StatementSetting): string[] {
  return statement.agreements.length < 2 ? [] : [agreement];
}
