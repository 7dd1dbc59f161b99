/**
 * The top of an invoice: what it is and what is owed, then who owes whom, and for what feed under which agreement.
 */
import { factGridPieces } from '../pdf/fact-grid.ts';
import type { Piece } from '../pdf/flow.ts';
import { baselineIn, paragraphPieces } from '../pdf/paragraph.ts';
import type { Sheet } from '../pdf/sheet.ts';
import { wrapText } from '../pdf/wrap-text.ts';
import type { InvoiceData } from './invoice-data.ts';
import { explanation, invoiceTitle, kindInWords, numberLine, totalName } from './invoice-words.ts';

const BELOW_NOTHING = /^−/u;

/** Who owes the total to whom, as a label above it. */
export function totalLabel(invoice: InvoiceData): string {
  return BELOW_NOTHING.test(invoice.total) ? 'The seller owes the buyer' : 'The buyer owes the seller';
}

/** "USD 1,986.85", without a sign: the label beside it says who owes it. */
function owed(invoice: InvoiceData): string {
  return `${invoice.currency} ${invoice.total.replace(BELOW_NOTHING, '')}`;
}

function titlePiece(invoice: InvoiceData, sheet: Sheet): Piece {
  const total = owed(invoice);
  const title = invoiceTitle(invoice);
  const totalWidth = sheet.figure.face.width(total, sheet.figure.size);
  const numbers = wrapText(numberLine(invoice), sheet.width - totalWidth - 24, sheet.body);
  const leading = sheet.body.size * 1.3;
  const height = 36 + Math.max(1, numbers.length) * leading + 8;
  return {
    height,
    keepWithNext: true,
    draw: (ink, top) => {
      ink.text(title, sheet.left, top + 30, sheet.title);
      const titleWidth = sheet.title.face.width(`${title} `, sheet.title.size);
      ink.text(kindInWords(invoice), sheet.left + titleWidth, top + 30, { ...sheet.quiet, size: 13 });
      ink.textEndingAt(totalLabel(invoice), sheet.right, top + 8, sheet.label);
      ink.textEndingAt(total, sheet.right, top + 30, sheet.figure);
      for (const [index, line] of numbers.entries()) {
        ink.text(
          line,
          sheet.left,
          top + 36 + index * leading + baselineIn(leading, sheet.body.size),
          sheet.body,
        );
      }
      ink.lines([[sheet.left, top + height, sheet.right, top + height]], sheet.colourRule);
    },
  };
}

/** The pieces of an invoice's heading, tied together and to what follows. */
export function headingPieces(invoice: InvoiceData, sheet: Sheet): Piece[] {
  const { agreement } = invoice;
  const across = { left: sheet.left, width: sheet.width, label: sheet.label, keepWithNext: true };
  const parties = factGridPieces({
    ...across,
    facts: [
      { label: 'Seller', value: invoice.seller },
      { label: 'Buyer', value: invoice.buyer },
    ],
    columns: 2,
    value: sheet.party,
    gapBefore: 9,
  });
  const version = agreement.version === undefined ? '' : `, version ${agreement.version}`;
  const facts = factGridPieces({
    ...across,
    facts: [
      { label: 'Agreement', value: `${agreement.id}${version}` },
      { label: 'Delivered', value: invoice.delivered },
      { label: 'Feed', value: invoice.feed, span: 2 },
    ],
    columns: 4,
    value: sheet.body,
    gapBefore: 8,
  });
  const sentence = paragraphPieces({
    text: explanation(invoice),
    left: sheet.left,
    width: sheet.width,
    style: sheet.label,
    leading: 10.5,
    gapBefore: 8,
    keepWithNext: true,
  });
  return [titlePiece(invoice, sheet), ...parties, ...facts, ...sentence];
}

/** The invoice's total between two rules, last of all, and who owes it. */
export function totalPiece(invoice: InvoiceData, sheet: Sheet): Piece {
  const height = 24;
  const style = { ...sheet.figure, size: 14 };
  return {
    height,
    gapBefore: 8,
    draw: (ink, top) => {
      ink.lines([[sheet.left, top, sheet.right, top]], sheet.rule);
      const name = totalName(invoice);
      ink.text(name, sheet.left, top + 16.5, style);
      const named = style.face.width(`${name}  `, style.size);
      ink.text(totalLabel(invoice).toLowerCase(), sheet.left + named, top + 16.5, sheet.quiet);
      ink.textEndingAt(owed(invoice), sheet.right, top + 16.5, style);
      ink.lines([[sheet.left, top + height, sheet.right, top + height]], sheet.rule);
    },
  };
}
