/**
 * What is open at the end: by how late it is, document by document, and what of it is questioned.
 */
import type { HeldAmount, OpenItem } from '../../domain/money/statement.ts';
import { sectionHeading } from '../agreement/prose.ts';
import { signOf, turned } from '../amount-strings.ts';
import type { Piece } from '../pdf/flow.ts';
import { type Row, tablePieces } from '../pdf/table.ts';
import {
  agreementCell,
  agreementColumn,
  directionOf,
  moneyText,
  onAccountDirection,
  type StatementSetting,
  sizeText,
  tableSpace,
  tableStyle,
  WHO_OWES,
} from './statement-setting.ts';
import { AGES } from './statement-words.ts';

/** The ageing, a row for each age that holds something; none where nothing is open. */
export function ageingPieces(setting: StatementSetting): Piece[] {
  const { statement, figures, sheet } = setting;
  const { ageing, currency } = statement;
  const ages = AGES.filter(([age]) => signOf(ageing[age]) !== 0);
  if (ages.length === 0) return [];
  const row = (name: string, amount: string, direction: string): Row => ({
    cells: [name, sizeText(amount, figures), direction],
  });
  const table = tablePieces({
    columns: [
      { head: 'How late', align: 'left', width: 'fill' },
      { head: `Open, ${currency}`, align: 'decimal', width: 'fit' },
      WHO_OWES,
    ],
    rows: ages.map(([age, name]) =>
      row(name, ageing[age], (age === 'onAccount' ? onAccountDirection : directionOf)(ageing[age])),
    ),
    totals: [row('Balance', ageing.total, directionOf(ageing.total))],
    // As wide as it needs to be: an amount far from its name is read in the wrong row.
    space: { ...tableSpace(setting), width: sheet.width * 0.62 },
    style: tableStyle(setting),
    gapBefore: 5,
  });
  return [...sectionHeading('How late it is', sheet), ...table];
}

function openRow(item: OpenItem, setting: StatementSetting): Row {
  const { figures } = setting;
  // Told in the direction of what is open: only a document that turned round has a sign here.
  const issued = signOf(item.open) < 0 ? turned(item.amount) : item.amount;
  const late = item.daysLate === 0 ? '' : String(item.daysLate);
  return {
    cells: [
      item.name,
      ...agreementCell(item.agreement, setting),
      item.issuedOn ?? '',
      item.dueOn ?? '',
      late,
      figures.show(issued),
      sizeText(item.open, figures),
      (item.kind === null ? onAccountDirection : directionOf)(item.open),
    ],
    note:
      signOf(item.held) === 0
        ? ''
        : `${moneyText(item.held, setting)} of what is open is questioned and not due`,
  };
}

/** Documents that are not settled in full, and money on account; none where there are none. */
export function openPieces(setting: StatementSetting): Piece[] {
  const { statement, sheet } = setting;
  const { currency } = statement;
  if (statement.open.length === 0) return [];
  const table = tablePieces({
    columns: [
      { head: 'Document', align: 'left', width: 'fill' },
      ...agreementColumn(setting),
      { head: 'Issued', align: 'left', width: 'fit' },
      { head: 'Due', align: 'left', width: 'fit' },
      { head: 'Days late', align: 'right', width: 'fit' },
      { head: `As issued, ${currency}`, align: 'decimal', width: 'fit' },
      { head: `Open, ${currency}`, align: 'decimal', width: 'fit' },
      WHO_OWES,
    ],
    rows: statement.open.map((item) => openRow(item, setting)),
    totals: [],
    space: tableSpace(setting),
    style: tableStyle(setting),
    gapBefore: 5,
  });
  return [...sectionHeading('Open documents', sheet), ...table];
}

function heldRow(held: HeldAmount, setting: StatementSetting): Row {
  return {
    cells: [
      held.since,
      ...agreementCell(held.agreement, setting),
      held.ticket === null ? held.document : `${held.document}, load ${held.ticket}`,
      held.by,
      sizeText(held.amount, setting.figures),
      directionOf(held.amount),
    ],
    note: held.reason === '' ? '' : `Why: ${held.reason}`,
  };
}

/** What is questioned, by whom and why; none where nothing is. */
export function heldPieces(setting: StatementSetting): Piece[] {
  const { statement, sheet } = setting;
  if (statement.held.length === 0) return [];
  const table = tablePieces({
    columns: [
      { head: 'Since', align: 'left', width: 'fit' },
      ...agreementColumn(setting),
      { head: 'What', align: 'left', width: 'fill' },
      { head: 'Questioned by', align: 'left', width: 'fill' },
      { head: `Held, ${statement.currency}`, align: 'decimal', width: 'fit' },
      WHO_OWES,
    ],
    rows: statement.held.map((held) => heldRow(held, setting)),
    totals: [],
    space: tableSpace(setting),
    style: { ...tableStyle(setting), noteUnder: 1 + agreementColumn(setting).length },
    gapBefore: 5,
  });
  return [...sectionHeading('Held while it is questioned', sheet), ...table];
}
