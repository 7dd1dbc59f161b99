/**
 * The settlement sheet of one load, as PDF: from the settlement that is recorded, the same bytes for both parties. It is no
 * invoice: those are numbered and issued (`money/`).
 */
import { figuresFor } from '../../documents/figures.ts';
import { drawUpInvoices } from '../../documents/invoice/draw-up-invoices.ts';
import { renderInvoices } from '../../documents/invoice/render-invoice.ts';
import type { FontBytes } from '../../documents/pdf/typeface.ts';
import { readerUnits } from '../../domain/agreement/reader-units.ts';
import { moneyOf } from '../../domain/settlement/settle-load.ts';
import { findLoad } from '../../store/rows/load-rows.ts';
import { findAgreement, isId } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { outcomesOf } from '../loads/load-views.ts';
import { Refusal } from '../refusal.ts';

/** The words on the paper are English, and figures are written the English way. */
const LANGUAGE = 'en-US';

export interface PrintedInvoice {
  readonly bytes: Uint8Array;
  /** The sheet's number: "A-26-014/T1". */
  readonly number: string;
}

/**
 * Refuses `not-allowed`, `not-found`, `not-ready` for a load that has not settled, and `bad-input` where a character
 * cannot be printed.
 */
export async function printInvoice(
  context: Context,
  { loadId, fonts }: { readonly loadId: string; readonly fonts: FontBytes },
): Promise<PrintedInvoice> {
  permit(context, 'read');
  const { found, outcome, settledAt } = await context.store.forParty(context.caller.partyId, async (tx) => {
    const row = isId(loadId) ? await findLoad(tx, loadId) : undefined;
    if (!row) throw new Refusal('not-found', 'There is no such load.');
    const of = await findAgreement(tx, row.agreementId);
    const [load] = await outcomesOf(tx, of, [row]);
    const current = load?.settlements.at(-1);
    if (!load || current?.status !== 'settled') {
      throw new Refusal(
        'not-ready',
        `Load ${row.ticket} has not settled, so there is no settlement of it to print.`,
      );
    }
    return { found: load.terms, outcome: load.outcome, settledAt: current.settledAt };
  });
  const { agreement, row } = found;
  const invoices = drawUpInvoices({
    agreement,
    version: String(row.version),
    fingerprint: row.fingerprint,
    money: moneyOf(agreement),
    outcomes: [outcome],
    by: 'load',
    paper: 'settlement',
    figures: figuresFor(LANGUAGE),
    issuedOn: settledAt.slice(0, 10),
  });
  const printed = await renderInvoices({
    invoices,
    fonts,
    language: LANGUAGE,
    paper: readerUnits(agreement).weight === 'kg' ? 'a4' : 'letter',
    createdOn: `${settledAt.slice(0, 10)}T00:00:00Z`,
  });
  if (!printed.ok) {
    throw new Refusal('bad-input', printed.problems.map(({ message }) => message).join('\n'));
  }
  return { bytes: printed.bytes, number: invoices[0]?.number ?? row.number };
}
