/**
 * What every page of an invoice says at its head and foot: whose invoice it is, and of which agreement.
 */
import type { Frame } from '../pdf/page-frame.ts';
import type { InvoiceData } from './invoice-data.ts';

/** The frame of one invoice's pages. */
export function invoiceFrame({ number, seller, buyer, agreement }: InvoiceData): Frame {
  const { id, version, fingerprint } = agreement;
  return {
    running: `Invoice ${number}: ${seller} to ${buyer}`,
    foot: [
      version === undefined ? `Agreement ${id}` : `Agreement ${id}, version ${version}`,
      `SHA-256 ${fingerprint}`,
    ],
  };
}
