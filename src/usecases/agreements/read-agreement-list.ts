/**
 * The agreements of the caller's party, and what is owed under each.
 */
import { figuresFor } from '../../documents/figures.ts';
import { FEEDS } from '../../domain/agreement/measures.ts';
import { readAgreements } from '../../store/rows/agreement-rows.ts';
import { readBalances } from '../../store/rows/journal-rows.ts';
import { countLoads } from '../../store/rows/list-rows.ts';
import { type Context, permit } from '../context.ts';
import { agreementOf } from './find-agreement.ts';

export interface AgreementSummary {
  readonly id: string;
  readonly number: string;
  readonly version: number;
  readonly seller: string;
  readonly buyer: string;
  readonly side: 'seller' | 'buyer';
  /** With the parts of the ear in it. */
  readonly feed: string;
  readonly loads: number;
  readonly waiting: number;
  /** What the buyer owes the seller for settled loads, as the reader writes it; "−" before it where the seller owes. */
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
    const balances = new Map(
      (await readBalances(tx))
        .filter(({ account }) => account === 'buyer-owes-seller')
        .map(({ agreementId, balance }) => [agreementId, balance]),
    );
    const counts = new Map((await countLoads(tx)).map((count) => [count.agreementId, count]));
    return rows.map((row) => {
      const agreement = agreementOf(row.document);
      return {
        id: row.id,
        number: row.number,
        version: row.version,
        seller: row.sellerName,
        buyer: row.buyerName,
        side: row.sellerId === context.caller.partyId ? 'seller' : 'buyer',
        feed: FEEDS[agreement.feed],
        loads: counts.get(row.id)?.loads ?? 0,
        waiting: counts.get(row.id)?.waiting ?? 0,
        owed: figures.show(balances.get(row.id) ?? '0'),
        currency: agreement.currency,
      };
    });
  });
}
