/**
 * Files by /api/v1: photos of tickets, reports of laboratories, and the settlement sheet of a load.
 */
import { z } from 'zod';
import { readRecordFile } from '../../../usecases/files/read-record-file.ts';
import { recordFile } from '../../../usecases/files/record-file.ts';
import { invoiceAnswer } from '../../loads/[id]/invoice/invoice-answer.ts';
import { ticketAnswer } from '../../loads/[id]/ticket/ticket-answer.ts';
import { FINGERPRINT } from '../answers/scalars.ts';
import { FILE_NAME, FILES } from '../file-bodies.ts';
import { operation } from '../operation.ts';

export const recordOneFile = operation({
  id: 'recordFile',
  method: 'POST',
  path: '/agreements/{id}/files',
  summary: 'Keeps a file that a ticket will name by its fingerprint; its kind is known by its content.',
  scopes: ['loads:write'],
  refusals: ['not-found', 'not-yours'],
  query: FILE_NAME,
  body: FILES,
  answer: z.strictObject({ fingerprint: FINGERPRINT }),
  work: async (context, { in: { id }, query: { name }, body: bytes, once }) =>
    await recordFile(context, { agreementId: id, file: { name, bytes }, ...once }),
});

export const readOneFile = operation({
  id: 'readFile',
  method: 'GET',
  path: '/agreements/{id}/files/{fingerprint}',
  summary: 'A file of the record: the photo of a ticket, or a laboratory’s report.',
  scopes: ['loads:read', 'results:read'],
  refusals: ['not-found'],
  answer: FILES,
  work: async (context, { in: { id, fingerprint } }) => {
    const { bytes, kind, name } = await readRecordFile(context, { agreementId: id, fingerprint });
    return new Response(bytes, {
      headers: {
        'content-type': kind,
        // Somebody else chose its bytes: no browser is to open it as a page of ours.
        'content-disposition': `attachment; filename*=UTF-8''${inHeader(name)}`,
        'cache-control': 'private, no-store',
      },
    });
  },
});

/** As RFC 8187 writes a name; encodeURIComponent leaves three marks that it does not let through. */
function inHeader(name: string): string {
  return encodeURIComponent(name).replace(/['()]/g, (mark) => `%${mark.charCodeAt(0).toString(16)}`);
}

export const readInvoice = operation({
  id: 'readInvoice',
  method: 'GET',
  path: '/loads/{id}/invoice',
  summary: 'The settlement of one load as PDF: the same bytes for both parties. It is no numbered invoice.',
  scopes: ['settlements:read'],
  refusals: ['not-found', 'not-ready'],
  answer: { kinds: ['application/pdf'] },
  work: async (context, { in: { id } }) => await invoiceAnswer(context, id),
});

export const readTicketPaper = operation({
  id: 'readTicketPaper',
  method: 'GET',
  path: '/loads/{id}/ticket/paper',
  summary: 'The scale ticket of a load as PDF: the same bytes for both parties.',
  scopes: ['loads:read'],
  refusals: ['not-found'],
  answer: { kinds: ['application/pdf'] },
  work: async (context, { in: { id } }) => await ticketAnswer(context, id),
});
