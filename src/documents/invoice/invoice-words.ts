/**
 * How the paper of settled loads calls itself. Files are settled into invoices; in the shared record, where numbered invoices
 * are issued, the paper of one load is a settlement sheet and says that it asks for no payment.
 */
import type { InvoiceData } from './invoice-data.ts';

export function isSheet({ paper }: Pick<InvoiceData, 'paper'>): boolean {
  return paper === 'settlement';
}

/** "Settlement of load T1", "Invoice A-26-014/T1": the head of every page. */
export function invoiceName(invoice: InvoiceData): string {
  return isSheet(invoice) ? `Settlement of ${loadsNamed(invoice)}` : `Invoice ${invoice.number}`;
}

/** The large word at the top. */
export function invoiceTitle(invoice: InvoiceData): string {
  return isSheet(invoice) ? 'Settlement' : 'Invoice';
}

/** Beside it: what it is for. */
export function kindInWords(invoice: InvoiceData): string {
  if (isSheet(invoice)) return `of ${loadsNamed(invoice)}`;
  const count = invoice.loads.length === 1 ? 'one load' : `${invoice.loads.length} loads`;
  switch (invoice.kind) {
    case 'load':
      return `for ${count}`;
    case 'day':
      return `for one day, ${count}`;
    case 'season':
      return `for the season, ${count}`;
  }
}

function loadsNamed({ loads }: InvoiceData): string {
  const [only] = loads;
  return loads.length === 1 && only ? `load ${only.ticket}` : `${loads.length} loads`;
}

export function numberLine(invoice: InvoiceData): string {
  const { number, issuedOn } = invoice;
  const [name, made] = isSheet(invoice) ? ['Sheet', 'settled'] : ['Number', 'drawn up'];
  return `${name} ${number}${issuedOn === undefined ? '' : `, ${made} ${issuedOn}`}`;
}

export function totalName(invoice: InvoiceData): string {
  return isSheet(invoice) ? 'Settled at' : 'Invoice total';
}

/** What the paper is, where the amounts come from, and what to do about a figure that looks wrong. */
export function explanation(invoice: InvoiceData): string {
  const { agreement, currency } = invoice;
  const from = isSheet(invoice)
    ? `This is not an invoice: payment is asked for by a numbered invoice. It shows, in ${currency}, how the amount came about under agreement ${agreement.id}: each amount comes`
    : `This request for payment, in ${currency}, is drawn up from agreement ${agreement.id}: each amount comes`;
  return (
    `${from} from the quantity and rate printed beside it, and the small line beneath shows how. If a figure looks ` +
    'wrong, ask about it at once: samples are not kept for ever.'
  );
}
