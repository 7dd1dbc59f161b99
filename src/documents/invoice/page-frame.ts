/**
 * What stands on every page of an invoice: at the foot the agreement, its version, its fingerprint and
 * page x of y; at the head of every page but the first, whose invoice this is.
 */
import type { PageInk } from '../pdf/page-ink.ts';
import type { Paper } from '../pdf/paper.ts';
import { wrapText } from '../pdf/wrap-text.ts';
import type { InvoiceData } from './invoice-data.ts';
import type { InvoiceSheet } from './invoice-sheet.ts';

export type PageNumber = { readonly page: number; readonly of: number };

const FOOTER_LEADING = 9.5;
const RUNNING_LEADING = 11;

function footerLines(invoice: InvoiceData, sheet: InvoiceSheet): string[] {
  const { id, version, fingerprint } = invoice.agreement;
  const named = version === undefined ? `Agreement ${id}` : `Agreement ${id}, version ${version}`;
  return [
    ...wrapText(named, sheet.width - 80, sheet.footer),
    ...wrapText(`SHA-256 ${fingerprint}`, sheet.width - 80, sheet.footer),
  ];
}

function runningLines(invoice: InvoiceData, sheet: InvoiceSheet): string[] {
  const text = `Invoice ${invoice.number}: ${invoice.seller} to ${invoice.buyer}`;
  return wrapText(text, sheet.width, sheet.label);
}

/** Height in points from the paper's top to where the content of a page begins; page 0 is the first. */
export function contentTop(page: number, invoice: InvoiceData, sheet: InvoiceSheet, paper: Paper): number {
  if (page === 0) return paper.margin.top;
  return paper.margin.top + runningLines(invoice, sheet).length * RUNNING_LEADING + 12;
}

/** Draws head and foot of one page; pages count from 1 within their invoice. */
export function drawFrame(
  ink: PageInk,
  invoice: InvoiceData,
  number: PageNumber,
  sheet: InvoiceSheet,
  paper: Paper,
): void {
  if (number.page > 1) {
    const lines = runningLines(invoice, sheet);
    for (const [index, line] of lines.entries()) {
      ink.text(line, sheet.left, paper.margin.top + 8 + index * RUNNING_LEADING, sheet.label);
    }
    const under = paper.margin.top + lines.length * RUNNING_LEADING + 3;
    ink.lines([[sheet.left, under, sheet.right, under]], sheet.hairline);
  }
  const lines = footerLines(invoice, sheet);
  const last = paper.height - 20;
  for (const [index, line] of lines.entries()) {
    ink.text(line, sheet.left, last - (lines.length - 1 - index) * FOOTER_LEADING, sheet.footer);
  }
  ink.textEndingAt(`page ${number.page} of ${number.of}`, sheet.right, last, sheet.footer);
}
