/**
 * What is taken off the goods: deductions, by what they are for and who gets them, and advances that were invoiced before.
 */
import type { DeductionLine } from '../../domain/money/money-document.ts';
import { sectionHeading } from '../agreement/prose.ts';
import { sumOf } from '../amount-strings.ts';
import type { Piece } from '../pdf/flow.ts';
import { sectionedTablePieces, type TableSection } from '../pdf/sectioned-table.ts';
import { tablePieces } from '../pdf/table.ts';
import { type DocumentSetting, loadName, tableSpace } from './document-setting.ts';
import { grouped, lineColumns, lineRow } from './lines-table.ts';

/** "Check-off, paid on to Fenwright Corn Board". */
function deductionName({ label, payee }: DeductionLine): string {
  return `${label}, ${payee === null ? 'kept by the buyer' : `paid on to ${payee}`}`;
}

function deductionSection(lines: readonly DeductionLine[], { figures }: DocumentSetting): TableSection {
  const [first] = lines;
  if (first === undefined) return { rows: [], totals: [] };
  const total = figures.show(sumOf(lines.map(({ amount }) => amount)));
  return {
    heading: deductionName(first),
    rows: lines.map((line) => lineRow(line.load === null ? line.label : loadName(line.load), line, figures)),
    totals: lines.length === 1 ? [] : [{ cells: [`${first.label}, total`, '', '', '', total] }],
    continued: `${first.label}, continued`,
  };
}

function withTitle(title: string, groups: readonly Piece[][], setting: DocumentSetting): Piece[][] {
  const [first, ...others] = groups;
  return first === undefined ? [] : [[...sectionHeading(title, setting.sheet), ...first], ...others];
}

/** The deductions, a group of pieces for each kind; none where there are none. */
export function deductionPieces(setting: DocumentSetting): Piece[][] {
  const { document, sheet } = setting;
  const kinds = grouped(document.deductions, ({ label, payee }) => JSON.stringify([label, payee]));
  if (kinds.length === 0) return [];
  const groups = sectionedTablePieces({
    columns: lineColumns('Taken off for', 'Taken off', document.currency),
    sections: kinds.map((lines) => deductionSection(lines, setting)),
    space: tableSpace(setting),
    style: sheet.table,
    gapBefore: 4,
  });
  return withTitle('Deductions', groups, setting);
}

/** Advances for loads on this document, which were invoiced before. */
export function advancePieces(setting: DocumentSetting): Piece[][] {
  const { document, figures, sheet } = setting;
  if (document.advances.length === 0) return [];
  const rows = document.advances.map(({ load, number, issuedOn, amount }) => ({
    cells: [loadName(load), number, issuedOn, figures.show(amount)],
  }));
  const total = figures.show(document.totals.advances);
  const pieces = tablePieces({
    columns: [
      { head: 'Invoiced before for', align: 'left', width: 'fill' },
      { head: 'Advance invoice', align: 'left', width: 'fit' },
      { head: 'Issued', align: 'left', width: 'fit' },
      { head: `Taken off, ${document.currency}`, align: 'decimal', width: 'fit' },
    ],
    rows,
    totals: rows.length === 1 ? [] : [{ cells: ['Advances, total', '', '', total] }],
    space: tableSpace(setting),
    style: sheet.table,
    gapBefore: 4,
  });
  return withTitle('Advances taken off', [pieces], setting);
}
