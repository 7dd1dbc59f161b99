/**
 * Invoices as one PDF, each beginning on a page of its own and counting its own pages.
 * The same data, fonts and date give the same bytes. A text that the fonts cannot print gives problems instead.
 */
import { finishedBytes } from '../pdf/finished-bytes.ts';
import type { Piece } from '../pdf/flow.ts';
import { layPages } from '../pdf/lay-pages.ts';
import { PAPERS, type PaperName } from '../pdf/paper.ts';
import { PdfDocument } from '../pdf/pdf-document.ts';
import { type Sheet, sheetFor } from '../pdf/sheet.ts';
import { type FontBytes, openFaces } from '../pdf/typeface.ts';
import type { InvoiceData } from './invoice-data.ts';
import { invoiceFrame } from './invoice-frame.ts';
import { headingPieces, totalPiece } from './invoice-heading.ts';
import { invoiceName } from './invoice-words.ts';
import { loadPieces } from './load-block.ts';
import { absentPieces, summaryPieces } from './loads-summary.ts';
import { type InvoiceProblem, textProblems } from './text-problems.ts';

export interface InvoiceOrder {
  readonly invoices: readonly InvoiceData[];
  readonly paper: PaperName;
  /** Two weights of one font with tabular figures, as TrueType bytes. */
  readonly fonts: FontBytes;
  /** Date and time for the document's own record, ISO 8601 with an offset. */
  readonly createdOn: string;
  /** Language tag of the words on the paper, such as "en-US". */
  readonly language: string;
  /** Told how many pages have been drawn so far, for somebody who waits. */
  readonly onPage?: (pages: number) => void;
}

export type InvoiceOutcome =
  | { readonly ok: true; readonly bytes: Uint8Array; readonly pages: number }
  | { readonly ok: false; readonly problems: readonly InvoiceProblem[] };

/** Ties the last piece of a group to a piece that must not stand alone. */
function tiedTo(group: readonly Piece[], last: Piece): Piece[] {
  const end = group.at(-1);
  return end === undefined ? [last] : [...group.slice(0, -1), { ...end, keepWithNext: true }, last];
}

function groupsOf(invoice: InvoiceData, sheet: Sheet): Piece[][] {
  const heading = headingPieces(invoice, sheet);
  const loads = invoice.loads.map((load) => loadPieces(load, invoice, sheet));
  const opening =
    invoice.kind === 'season'
      ? [[...heading, ...summaryPieces(invoice, sheet)], absentPieces(invoice, sheet), ...loads]
      : [
          ...loads.slice(0, 1).map((first) => [...heading, ...first]),
          ...loads.slice(1),
          absentPieces(invoice, sheet),
        ];
  const groups = opening.filter((group) => group.length > 0);
  const end = groups.pop() ?? heading;
  return [...groups, tiedTo(end, totalPiece(invoice, sheet))];
}

function titleOf(invoices: readonly InvoiceData[]): string {
  const [first] = invoices;
  if (first === undefined) return 'No invoices';
  const parties = `${first.seller} to ${first.buyer}`;
  return invoices.length === 1
    ? `${invoiceName(first)}: ${parties}`
    : `${invoices.length} invoices, agreement ${first.agreement.id}: ${parties}`;
}

/**
 * Prints invoices. Problems: `missing-characters` (the fonts lack a character, with its place),
 * `vague-feed` (the feed is not named by its parts). Throws RangeError on an unreadable date, an empty list,
 * or strip shares outside 0 to 1, which are faults of the caller.
 */
export async function renderInvoices(order: InvoiceOrder): Promise<InvoiceOutcome> {
  const { invoices, createdOn, language } = order;
  if (invoices.length === 0) throw new RangeError('no invoices to print');
  const paper = PAPERS[order.paper];
  const faces = openFaces(order.fonts);
  const problems = textProblems(invoices, faces);
  if (problems.length > 0) return { ok: false, problems };
  const document = new PdfDocument({ title: titleOf(invoices), language, createdOn, paper, faces });
  const sheet = sheetFor(paper, faces);
  let pages = 0;
  const onPage = () => {
    pages++;
    order.onPage?.(pages);
  };
  for (const invoice of invoices) {
    layPages(document, {
      groups: groupsOf(invoice, sheet),
      frame: invoiceFrame(invoice),
      sheet,
      paper,
      onPage,
    });
  }
  return { ok: true, bytes: await finishedBytes(document), pages };
}
