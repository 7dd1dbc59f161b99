/**
 * The agreements of the caller's party, and what is owed under each.
 */
import { figuresFor } from '../../documents/figures.ts';
import { FEEDS } from '../../domain/agreement/measures.ts';
import { readAgreements } from '../../store/rows/agreement-rows.ts';
import { readBalances } from '../../store/rows/journal-rows.ts';
import { countLoads } from '../../store/rows/list-rows.ts';
import { readBroughtForward } from '../../store/rows/money/brought-forward-rows.ts';
import { readUsableAdvances } from '../../store/rows/money/load-standing-rows.ts';
import { readClosingDays, readSerials } from '../../store/rows/signing-rows.ts';
import { type Context, permit } from '../context.ts';
import { owedByAgreement } from '../money/owed-by-agreement.ts';
import { agreementOf, sideOf } from './find-agreement.ts';

export interface AgreementSummary {
  readonly id: string;
  readonly number: string;
  readonly version: number;
  readonly seller: string;
  readonly buyer: string;
  /** The caller's; an adviser looks on. */
  readonly side: 'seller' | 'buyer' | 'adviser';
  /** With the parts of the ear in it. */
  readonly feed: string;
  /** The seller's own running number of it; null where it was signed elsewhere and recorded. */
  readonly serial: number | null;
  /** The last day of delivery, where both closed it early. */
  readonly closedOn: string | null;
  /** Both have signed its season shut: nothing is recorded under it any more. */
  readonly isSealed: boolean;
  readonly loads: number;
  readonly waiting: number;
  /** What the buyer owes the seller, invoiced or not, less what it paid; "−" before it where the seller owes. An adviser sees no money. */
  readonly owed: string;
  readonly currency: string;
}

/** By number. Refuses `not-allowed`. */
export async function readAgreementList(
  context: Context,
  { locale }: { readonly locale: string },
): Promise<readonly AgreementSummary[]> {
  permit(context, 'read');
  const figures = figuresFor(locale);
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const rows = await readAgreements(tx);
    const isSealed = new Set(rows.flatMap((row) => (row.isSealed ? [row.id] : [])));
    const elsewhere = new Set((await readBroughtForward(tx, [...isSealed])).map((row) => row.agreementId));
    const owed = owedByAgreement(
      (await readBalances(tx)).filter((row) => !elsewhere.has(row.agreementId)),
      // What was advanced for a load of a sealed season is told with what it carries over.
      (await readUsableAdvances(tx)).filter((row) => !isSealed.has(row.agreementId)),
    );
    const [serials, closings] = [await readSerials(tx), await readClosingDays(tx)];
    const counts = new Map((await countLoads(tx)).map((count) => [count.agreementId, count]));
    return rows.map((row) => {
      const agreement = agreementOf(row.document);
      return {
        id: row.id,
        number: row.number,
        version: row.version,
        seller: row.sellerName,
        buyer: row.buyerName,
        side: sideOf(row, context.caller),
        feed: FEEDS[agreement.feed],
        serial: serials.get(row.id) ?? null,
        closedOn: closings.get(row.id) ?? null,
        isSealed: row.isSealed,
        loads: counts.get(row.id)?.loads ?? 0,
        waiting: counts.get(row.id)?.waiting ?? 0,
        owed: figures.show(owed.get(row.id) ?? '0'),
        currency: agreement.currency,
      };
    });
  });
}
