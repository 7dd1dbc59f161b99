/**
 * What every page of an invoice says at its head and foot: whose invoice it is, and of which agreement.
 */
import type { Frame } from '../pdf/page-frame.ts';
import type { InvoiceData } from './invoice-data.ts';
import { invoiceName } from './invoice-words.ts';

/** The frame of one invoice's pages. */
export function invoiceFrame(invoice: InvoiceData): Frame {
  const { seller, buyer, agreement } = invoice;
  const { id, version, fingerprint } = agreement;
  return {
    running: `${invoiceName(invoice)}: ${seller} to ${buyer}`,
    foot: [
      version === undefined ? `Agreement ${id}` : `Agreement ${id}, version ${version}`,
      `SHA-256 ${fingerprint}`,
    ],
  };
}
