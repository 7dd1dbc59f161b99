/**
 * What a seller most likely means on a new lot: money, clock and tons as on its newest lot, else as in its newest
 * agreement.
 */
import { readerUnits } from '../../domain/agreement/reader-units.ts';
import type { LotDocument } from '../../domain/lots/lot-document.ts';
import { readAgreements } from '../../store/rows/agreement-rows.ts';
import { readLots } from '../../store/rows/lot-rows.ts';
import { agreementOf } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { lotOf } from './find-lot.ts';

export type LotDefaults = Partial<
  Pick<LotDocument, 'feed' | 'currency' | 'timeZone' | 'ton' | 'region' | 'place' | 'weighedBy' | 'hauledBy'>
>;

/** Refuses `not-allowed` for a role that may not sell. */
export async function readLotDefaults(context: Context): Promise<LotDefaults> {
  permit(context, 'keep-lot');
  const { partyId } = context.caller;
  return await context.store.forParty(partyId, async (tx) => {
    const newest = (await readLots(tx)).find(({ sellerId }) => sellerId === partyId);
    if (newest) {
      const { feed, currency, timeZone, ton, region, place, weighedBy, hauledBy } = lotOf(newest.document);
      return { feed, currency, timeZone, ton, region, place, weighedBy, hauledBy };
    }
    const agreement = (await readAgreements(tx)).at(-1);
    if (!agreement) return {};
    const terms = agreementOf(agreement.document);
    const { feed, currency, timeZone } = terms;
    return { feed, currency, timeZone, ton: readerUnits(terms).ton };
  });
}
