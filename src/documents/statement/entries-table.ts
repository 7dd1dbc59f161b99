/**
 * Everything that changed what is owed, day by day, between the opening and the closing balance. Each change stands in
 * the column of the one whom it favours, and each balance says in words which way it is owed.
 */
import type { StatementEntry } from '../../domain/money/statement.ts';
import { sectionHeading } from '../agreement/prose.ts';
import { signOf, sumOf } from '../amount-strings.ts';
import type { Piece } from '../pdf/flow.ts';
import { paragraphPieces } from '../pdf/paragraph.ts';
import { type Row, tablePieces } from '../pdf/table.ts';
import {
  agreementCell,
  agreementColumn,
  directionOf,
  type StatementSetting,
  sizeText,
  tableSpace,
  tableStyle,
  WHO_OWES,
} from './statement-setting.ts';

/** The texts of one entry's row, in the order of the columns. */
export function entryCells(entry: StatementEntry, setting: StatementSetting): string[] {
  const { figures } = setting;
  const change = sizeText(entry.amount, figures);
  const isForReader = signOf(entry.amount) >= 0;
  return [
    entry.on,
    ...agreementCell(entry.agreement, setting),
    entry.name,
    isForReader ? change : '',
    isForReader ? '' : change,
    ...balanceCells(entry.balance, setting),
  ];
}

function balanceCells(balance: string, { figures }: StatementSetting): string[] {
  return [sizeText(balance, figures), directionOf(balance)];
}

/** What the changes of one direction come to; empty where there are none. */
function sumTowards(sign: 1 | -1, { statement, figures }: StatementSetting): string {
  const amounts = statement.entries.map(({ amount }) => amount).filter((amount) => signOf(amount) === sign);
  return amounts.length === 0 ? '' : sizeText(sumOf(amounts), figures);
}

function boundRow(bound: 'opening' | 'closing', setting: StatementSetting): Row {
  const { statement } = setting;
  const isClosing = bound === 'closing';
  return {
    cells: [
      isClosing ? statement.to : statement.from,
      ...agreementCell('', setting),
      isClosing ? 'Closing balance' : 'Opening balance',
      isClosing ? sumTowards(1, setting) : '',
      isClosing ? sumTowards(-1, setting) : '',
      ...balanceCells(statement[bound], setting),
    ],
  };
}

/** The table with its heading; where nothing happened, it says so. */
export function entriesPieces(setting: StatementSetting): Piece[] {
  const { statement, sheet } = setting;
  const { currency } = statement;
  const nothing =
    statement.entries.length > 0
      ? []
      : paragraphPieces({
          text: `Nothing was recorded from ${statement.from} to ${statement.to}.`,
          left: sheet.left,
          width: sheet.width,
          style: sheet.body,
          leading: 13,
          gapBefore: 3,
          keepWithNext: true,
        });
  const table = tablePieces({
    columns: [
      { head: 'Day', align: 'left', width: 'fit' },
      ...agreementColumn(setting),
      { head: 'What', align: 'left', width: 'fill' },
      { head: `In your favour, ${currency}`, align: 'decimal', width: 'fit' },
      { head: `In their favour, ${currency}`, align: 'decimal', width: 'fit' },
      { head: `Balance, ${currency}`, align: 'decimal', width: 'fit' },
      WHO_OWES,
    ],
    rows: [
      boundRow('opening', setting),
      ...statement.entries.map((entry) => ({ cells: entryCells(entry, setting), note: entry.detail })),
    ],
    totals: [boundRow('closing', setting)],
    space: tableSpace(setting),
    style: { ...tableStyle(setting), noteUnder: 1 + agreementColumn(setting).length },
    gapBefore: 5,
  });
  return [...sectionHeading('What was recorded', sheet), ...nothing, ...table];
}
