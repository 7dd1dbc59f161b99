/**
 * Feed for sale in the record of the browser tests: a lot for invited parties, on which two dairies bid against one
 * another, and a draft.
 */
import type { Caller, Tools } from '../../src/usecases/context.ts';
import { draftLot } from '../../src/usecases/lots/keep-lot.ts';
import { postLot } from '../../src/usecases/lots/post-lot.ts';
import { makeOffer } from '../../src/usecases/offers/make-offer.ts';
import { LOT, TERMS } from '../usecases/bargain.ts';

export interface MarketIds {
  readonly lotId: string;
  /** The grower's alone. */
  readonly draftId: string;
  /** The dairy's offer on the lot. */
  readonly offerId: string;
}

/** What stands in the dairy's offer and nowhere else: whoever else is shown it sees the offer. */
export const DAIRY_MARK = 'Marigold clause of the dairy';

export async function fillMarket(
  tools: Tools,
  owners: Readonly<Record<'grower' | 'dairy' | 'rival', Caller>>,
): Promise<MarketIds> {
  const as = (caller: Caller) => ({ ...tools, caller });
  const grower = as(owners.grower);
  const document = { ...LOT, until: inDays(tools, 60) };
  const { lotId } = await draftLot(grower, { document, address: '4 Teasel Lane' });
  await postLot(grower, { lotId, audience: 'invited' });
  await tools.store.forParty(owners.grower.partyId, async (tx) => {
    for (const { partyId } of [owners.dairy, owners.rival]) {
      const by = {
        sellerId: owners.grower.partyId,
        invitedAt: new Date(tools.now()),
        invitedBy: owners.grower.personId,
      };
      await tx.lotGuest.create({ data: { lotId, partyId, ...by } });
    }
  });
  const { lotId: draftId } = await draftLot(grower, { document, address: '9 Teasel Lane' });
  const marked = { ...TERMS, conditions: { notes: DAIRY_MARK } };
  const offer = { lotId, document: marked, message: DAIRY_MARK, validDays: '30' };
  const { offerId } = await makeOffer(as(owners.dairy), offer);
  await makeOffer(as(owners.rival), { lotId, document: TERMS, validDays: '30' });
  return { lotId, draftId, offerId };
}

/** A local date some days from now. */
function inDays({ now }: Tools, days: number): string {
  return new Date(now() + days * 86_400_000).toISOString().slice(0, 10);
}
