/**
 * One load on an invoice: its facts, then each line of the agreement with its amount and how it came about.
 */
import type { Piece } from '../pdf/flow.ts';
import type { Sheet } from '../pdf/sheet.ts';
import { type Row, tablePieces } from '../pdf/table.ts';
import type { InvoiceData, InvoiceLoad } from './invoice-data.ts';
import { loadHeading, referencePieces, stripPiece, testPieces, ticketPieces } from './load-facts.ts';

function lineRows(load: InvoiceLoad): Row[] {
  return load.lines.map((line) => ({
    cells: [line.label, line.quantity, line.unit, line.rate, line.amount],
    note: line.how,
  }));
}

function linePieces(load: InvoiceLoad, invoice: InvoiceData, sheet: Sheet): Piece[] {
  return tablePieces({
    columns: [
      { head: 'Line of the agreement', align: 'left', width: 'fill' },
      { head: 'Quantity', align: 'decimal', width: 'fit' },
      { head: 'Unit', align: 'left', width: 'fit' },
      { head: `Rate, ${invoice.currency} a unit`, align: 'decimal', width: 'fit' },
      { head: `Amount, ${invoice.currency}`, align: 'decimal', width: 'fit' },
    ],
    rows: lineRows(load),
    totals: [{ cells: [`Load ${load.ticket}, total`, '', '', '', load.total] }],
    space: { left: sheet.left, width: sheet.width, gap: 12, decimalMark: invoice.decimalMark },
    style: sheet.table,
    gapBefore: 8,
    continued: `Load ${load.ticket}, continued`,
  });
}

/** All pieces of one load; the facts are tied to the first line. */
export function loadPieces(load: InvoiceLoad, invoice: InvoiceData, sheet: Sheet): Piece[] {
  return [
    loadHeading(load, sheet),
    stripPiece(load, sheet),
    ...ticketPieces(load, invoice, sheet),
    ...(load.tests === undefined ? [] : testPieces(load.tests, sheet)),
    ...referencePieces(load, sheet, invoice.decimalMark),
    ...linePieces(load, invoice, sheet),
  ];
}
