/**
 * A document's lines, load by load: quantity, unit, rate and amount of each, with how it came about beneath it.
 */
import type { DocumentLine } from '../../domain/money/money-document.ts';
import { sumOf } from '../amount-strings.ts';
import type { Figures } from '../figures.ts';
import type { Piece } from '../pdf/flow.ts';
import { sectionedTablePieces, type TableSection } from '../pdf/sectioned-table.ts';
import type { Row } from '../pdf/table.ts';
import type { Column } from '../pdf/table-columns.ts';
import { type DocumentSetting, loadName, tableSpace } from './document-setting.ts';

/** The columns of lines; a deduction's amount has another name. */
export function lineColumns(label: string, amount: string, currency: string): Column[] {
  return [
    { head: label, align: 'left', width: 'fill' },
    { head: 'Quantity', align: 'decimal', width: 'fit' },
    { head: 'Unit', align: 'left', width: 'fit' },
    { head: `Rate, ${currency} a unit`, align: 'decimal', width: 'fit' },
    { head: `${amount}, ${currency}`, align: 'decimal', width: 'fit' },
  ];
}

/** One line under a name. A unit is written as people write it: "short ton". */
export function lineRow(name: string, line: DocumentLine, figures: Figures): Row {
  return {
    cells: [
      name,
      figures.show(line.quantity),
      line.unit.replaceAll('-', ' '),
      figures.show(line.rate),
      figures.show(line.amount),
    ],
    note: line.how,
  };
}

/** The lines that belong together, in the order in which each group is first met. */
export function grouped<Item>(items: readonly Item[], keyOf: (item: Item) => string): Item[][] {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const key = keyOf(item);
    const same = groups.get(key);
    if (same) same.push(item);
    else groups.set(key, [item]);
  }
  return [...groups.values()];
}

function sectionOf(lines: readonly DocumentLine[], isOnlyOne: boolean, figures: Figures): TableSection {
  const load = lines[0]?.load ?? null;
  const total = figures.show(sumOf(lines.map(({ amount }) => amount)));
  const name = load === null ? 'Not of one load' : loadName(load);
  return {
    // Lines of no load stand under a heading only where others do.
    ...(load === null && isOnlyOne ? {} : { heading: name }),
    rows: lines.map((line) => lineRow(line.label, line, figures)),
    // Of a single line the sum is the line itself.
    totals:
      isOnlyOne || lines.length === 1
        ? []
        : [
            {
              cells: [
                load === null ? 'Not of one load, total' : `Load ${load.ticket}, total`,
                '',
                '',
                '',
                total,
              ],
            },
          ],
    ...(load === null ? {} : { continued: `Load ${load.ticket}, continued` }),
  };
}

/** A group of pieces for each load. */
export function linesPieces(setting: DocumentSetting): Piece[][] {
  const { document, figures, sheet } = setting;
  const loads = grouped(document.lines, ({ load }) =>
    load === null ? '' : `${load.deliveredOn} ${load.ticket}`,
  );
  if (loads.length === 0) return [];
  return sectionedTablePieces({
    columns: lineColumns('Line', 'Amount', document.currency),
    sections: loads.map((lines) => sectionOf(lines, loads.length === 1, figures)),
    space: tableSpace(setting),
    style: sheet.table,
    gapBefore: 12,
  });
}
