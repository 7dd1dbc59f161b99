/**
 * The quotes of an agreement's price series that are recorded, newest first.
 */
import { figuresFor } from '../../documents/figures.ts';
import { readQuotes as readQuoteRows } from '../../store/rows/quote-rows.ts';
import { findAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';

export interface QuoteView {
  readonly series: string;
  /** `YYYY-MM-DD`. */
  readonly date: string;
  /** As the reader writes numbers, with the decimals that were recorded. */
  readonly price: string;
}

/** At most `count` of all series together. Refuses `not-allowed`, and `not-found` for an agreement of others. */
export async function readQuotes(
  context: Context,
  asked: { readonly agreementId: string; readonly locale: string; readonly count: number },
): Promise<readonly QuoteView[]> {
  permit(context, 'read');
  const { agreementId, locale, count } = asked;
  const figures = figuresFor(locale);
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    await findAgreement(tx, agreementId);
    const rows = await readQuoteRows(tx, agreementId);
    return rows
      .toSorted((a, b) => (a.date < b.date ? 1 : a.date > b.date ? -1 : 0))
      .slice(0, count)
      .map(({ series, date, price }) => ({ series, date, price: figures.show(price) }));
  });
}
