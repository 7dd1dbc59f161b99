/**
 * The table of loads that opens a season's invoice: a row and a small strip for each, then the total.
 * Loads that are not on the invoice yet are named below it.
 */
import type { Piece } from '../pdf/flow.ts';
import { paragraphPieces } from '../pdf/paragraph.ts';
import type { Sheet } from '../pdf/sheet.ts';
import { tablePieces } from '../pdf/table.ts';
import type { Picture } from '../pdf/table-columns.ts';
import { drawStrip } from '../strip/draw-strip.ts';
import { loadStrip } from '../strip/load-strip.ts';
import type { InvoiceData, InvoiceLoad } from './invoice-data.ts';

const STRIP_WIDTH = 132;
const NOT_TESTED = '–';

function smallStrip(load: InvoiceLoad): Picture {
  const strip = loadStrip(load.strip);
  return {
    width: STRIP_WIDTH,
    height: 8,
    draw: (ink, x, top) => drawStrip(ink, strip, { x, top, width: STRIP_WIDTH, height: 8 }),
  };
}

/** The table of an invoice's loads with its total. */
export function summaryPieces(invoice: InvoiceData, sheet: Sheet): Piece[] {
  return tablePieces({
    columns: [
      { head: 'Load', align: 'left', width: 'fill' },
      { head: 'Delivered', align: 'left', width: 'fit' },
      { head: 'Water, starch, fibre, rest', align: 'left', width: STRIP_WIDTH },
      { head: `Net, ${invoice.weightUnit}`, align: 'decimal', width: 'fit' },
      { head: 'Dry matter, %', align: 'decimal', width: 'fit' },
      { head: 'Starch, % of dry matter', align: 'decimal', width: 'fit' },
      { head: `Amount, ${invoice.currency}`, align: 'decimal', width: 'fit' },
    ],
    rows: invoice.loads.map((load) => ({
      cells: [
        load.ticket,
        load.deliveredAt,
        smallStrip(load),
        load.netConverted,
        load.dryMatterPercent ?? NOT_TESTED,
        load.starchPercent ?? NOT_TESTED,
        load.total,
      ],
    })),
    totals: [
      {
        cells: [`All ${invoice.loads.length} loads`, '', '', invoice.net ?? '', '', '', invoice.total],
      },
    ],
    space: { left: sheet.left, width: sheet.width, gap: 10, decimalMark: invoice.decimalMark },
    style: { ...sheet.table, body: { ...sheet.body, size: 9 }, total: { ...sheet.strong, size: 9 } },
    gapBefore: 12,
  });
}

/** What is still to come, so that nobody takes the invoice for the whole season. */
export function absentPieces(invoice: InvoiceData, sheet: Sheet): Piece[] {
  if (invoice.absent.length === 0) return [];
  const count = invoice.absent.reduce((sum, { loads }) => sum + loads.length, 0);
  const told = invoice.absent.map(({ why, loads }) => `${loads.join(', ')} (${why})`);
  return paragraphPieces({
    text: `Not on this invoice: ${count === 1 ? '1 load' : `${count} loads`}. ${told.join('; ')}.`,
    left: sheet.left,
    width: sheet.width,
    style: sheet.body,
    leading: 12.5,
    gapBefore: 8,
  });
}
