/**
 * The quotes of an agreement as they stand, each with what is needed to put it right.
 */
import { readQuotes } from '../../store/rows/quote-rows.ts';
import { findAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';

export interface StandingQuote {
  readonly id: string;
  readonly series: string;
  /** `YYYY-MM-DD`. */
  readonly date: string;
  /** With the decimals that were recorded. */
  readonly price: string;
  /** 1, and one more with each correction. */
  readonly version: number;
  /** Why it corrects the version before. */
  readonly reason: string | null;
}

/** By series and date. Refuses `not-allowed`, and `not-found` for an agreement of others. */
export async function readStandingQuotes(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<readonly StandingQuote[]> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    await findAgreement(tx, agreementId);
    const rows = await readQuotes(tx, agreementId);
    return rows.map(({ id, series, date, price, version, reason }) => ({
      ...{ id, series, date, price, version, reason },
    }));
  });
}
