/**
 * What was weighed, tested and quoted for one load, above its amounts: heading, load strip, ticket, sample, prices.
 */
import type { Fact } from '../pdf/fact-grid.ts';
import { factGridPieces } from '../pdf/fact-grid.ts';
import type { Piece } from '../pdf/flow.ts';
import { paragraphPieces } from '../pdf/paragraph.ts';
import type { Sheet } from '../pdf/sheet.ts';
import { tablePieces } from '../pdf/table.ts';
import type { DecimalMark } from '../pdf/table-columns.ts';
import { wrapText } from '../pdf/wrap-text.ts';
import { drawLegend, drawStrip } from '../strip/draw-strip.ts';
import { loadStrip } from '../strip/load-strip.ts';
import type { InvoiceData, InvoiceLoad, InvoiceTests, Measured } from './invoice-data.ts';

function withUnit({ figure, unit }: Measured): string {
  return unit === '' ? figure : `${figure} ${unit}`;
}

/** "Load T1" and when it came, on one line where both fit. */
export function loadHeading(load: InvoiceLoad, sheet: Sheet): Piece {
  const when = `delivered ${load.deliveredAt}`;
  const whenWidth = sheet.quiet.face.width(when, sheet.quiet.size);
  const names = wrapText(`Load ${load.ticket}`, sheet.width - whenWidth - 12, sheet.heading);
  const leading = 16;
  return {
    height: names.length * leading + 4,
    gapBefore: 13,
    keepWithNext: true,
    draw: (ink, top) => {
      for (const [index, name] of names.entries())
        ink.text(name, sheet.left, top + 12 + index * leading, sheet.heading);
      ink.textEndingAt(when, sheet.right, top + 12, sheet.quiet);
    },
  };
}

/** The load strip with its legend. */
export function stripPiece(load: InvoiceLoad, sheet: Sheet): Piece {
  const strip = loadStrip(load.strip);
  return {
    height: 32,
    gapBefore: 2,
    keepWithNext: true,
    draw: (ink, top) => {
      drawStrip(ink, strip, { x: sheet.left, top, width: sheet.width, height: 15 });
      drawLegend(ink, strip, { x: sheet.left, baseline: top + 26.5 }, sheet.label);
    },
  };
}

/** The scale ticket's weights. */
export function ticketPieces(load: InvoiceLoad, { weightUnit }: InvoiceData, sheet: Sheet): Piece[] {
  const facts: Fact[] = [
    { label: 'Gross', value: withUnit(load.gross) },
    { label: 'Tare', value: withUnit(load.tare) },
    { label: 'Net', value: withUnit(load.net) },
  ];
  if (load.net.unit !== weightUnit) {
    facts.push({ label: `Net in ${weightUnit}`, value: `${load.netConverted} ${weightUnit}` });
  }
  if (load.truck !== undefined) facts.push({ label: 'Truck', value: load.truck });
  return factGridPieces({
    facts,
    columns: Math.max(4, facts.length),
    left: sheet.left,
    width: sheet.width,
    label: sheet.label,
    value: sheet.body,
    gapBefore: 4,
    keepWithNext: true,
  });
}

/** Every figure of the sample, in a grid. */
export function testPieces(tests: InvoiceTests, sheet: Sheet): Piece[] {
  const from = tests.laboratory === undefined ? '' : `, ${tests.laboratory}`;
  const title = paragraphPieces({
    text: `Sample ${tests.sample}${from}, figures as the agreement uses them (reported on ${tests.basis})`,
    left: sheet.left,
    width: sheet.width,
    style: sheet.strong,
    leading: 12.5,
    gapBefore: 7,
    keepWithNext: true,
  });
  const figures = factGridPieces({
    facts: tests.measures.map((measure) => ({ label: measure.name, value: withUnit(measure) })),
    columns: 4,
    left: sheet.left,
    width: sheet.width,
    label: sheet.label,
    value: sheet.body,
    gapBefore: 1,
    keepWithNext: true,
  });
  return [...title, ...figures];
}

/** Each reference price: the quote, when it was quoted, and the price that the agreement makes of it. */
export function referencePieces(load: InvoiceLoad, sheet: Sheet, decimalMark: DecimalMark): Piece[] {
  if (load.references.length === 0) return [];
  return tablePieces({
    columns: [
      { head: 'Reference price', align: 'left', width: 'fill' },
      { head: 'Quoted on', align: 'left', width: 'fill' },
      { head: 'Quote', align: 'decimal', width: 'fit' },
      { head: 'Price used', align: 'decimal', width: 'fit' },
      { head: 'Unit', align: 'left', width: 'fit' },
    ],
    rows: load.references.map((reference) => ({
      cells: [
        reference.series === undefined ? reference.name : `${reference.name}: ${reference.series}`,
        reference.quotedOn.length === 0 ? 'fixed by the agreement' : reference.quotedOn.join(', '),
        reference.quote,
        reference.price,
        reference.unit,
      ],
    })),
    totals: [],
    space: { left: sheet.left, width: sheet.width, gap: 14, decimalMark },
    style: { ...sheet.table, rule: sheet.hairline, padding: 1.5 },
    gapBefore: 7,
    keepWithNext: true,
  });
}
