/**
 * Feed for sale in the record of the browser tests: a lot for invited parties, on which two dairies bid against one
 * another, and a draft.
 */
import { proposeDraft } from '../../src/usecases/advice/propose-draft.ts';
import type { Caller, Context, Tools } from '../../src/usecases/context.ts';
import { draftLot } from '../../src/usecases/lots/keep-lot.ts';
import { postLot } from '../../src/usecases/lots/post-lot.ts';
import { endOffer } from '../../src/usecases/offers/end-offer.ts';
import { makeOffer } from '../../src/usecases/offers/make-offer.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { joinWithNewParty } from '../../src/usecases/sharing/join-with-new-party.ts';
import { LOT, TERMS } from '../usecases/bargain.ts';

export interface MarketIds {
  readonly lotId: string;
  /** The grower's alone. */
  readonly draftId: string;
  /** The dairy's offer on the lot. */
  readonly offerId: string;
  /** One that the dairy made before and withdrew. */
  readonly endedOfferId: string;
  /** What a practice advises the dairy on that offer, with a draft. */
  readonly adviceId: string;
  readonly adviceDraftId: string;
}

/** What stands in the dairy's offer and nowhere else: whoever else is shown it sees the offer. */
export const DAIRY_MARK = 'Marigold clause of the dairy';

/** An adviser's practice with its owner's sign-in. */
export const ADVISER = {
  party: 'Row and Husk Advice',
  name: 'Nela Pruett',
  email: 'nela@rowandhusk.example',
  password: 'read it twice before breakfast',
} as const;

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
  const { offerId: endedOfferId } = await makeOffer(as(owners.dairy), offer);
  await endOffer(as(owners.dairy), { offerId: endedOfferId });
  const { offerId } = await makeOffer(as(owners.dairy), offer);
  await makeOffer(as(owners.rival), { lotId, document: TERMS, validDays: '30' });
  return {
    lotId,
    draftId,
    offerId,
    endedOfferId,
    ...(await fillAdvice(tools, { dairy: as(owners.dairy), offerId })),
  };
}

async function fillAdvice(
  tools: Tools,
  { dairy, offerId }: { readonly dairy: Context; readonly offerId: string },
): Promise<Pick<MarketIds, 'adviceId' | 'adviceDraftId'>> {
  const { secret } = await askAdviser(dairy, { offerId });
  const come = await joinWithNewParty(tools, { ...ADVISER, secret, address: '127.0.0.1' });
  const { personId, partyId } = come;
  const adviser: Context = { ...tools, caller: { personId, partyId, role: 'owner' } };
  const adviceId = come.adviceId ?? '';
  const document = { ...TERMS, conditions: { notes: DAIRY_MARK } };
  const { draftId: adviceDraftId } = await proposeDraft(adviser, { adviceId, document });
  return { adviceId, adviceDraftId };
}

/** A local date some days from now. */
function inDays({ now }: Tools, days: number): string {
  return new Date(now() + days * 86_400_000).toISOString().slice(0, 10);
}
