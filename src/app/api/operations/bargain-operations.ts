/**
 * Lots, offers and proposals by /api/v1. They are for people who are signed in: no token bargains for its party, and
 * signing is done on a page.
 */
import { z } from 'zod';
import { NO_LANGUAGE } from '../../../documents/figures.ts';
import { readFeedRequest } from '../../../usecases/lots/feed-request.ts';
import { changeLot, draftLot } from '../../../usecases/lots/keep-lot.ts';
import { postLot, withdrawLot } from '../../../usecases/lots/post-lot.ts';
import { readFeedForSale } from '../../../usecases/lots/read-feed-for-sale.ts';
import { readLotView } from '../../../usecases/lots/read-lot-view.ts';
import { counterOffer } from '../../../usecases/offers/counter-offer.ts';
import { endOffer } from '../../../usecases/offers/end-offer.ts';
import { makeOffer } from '../../../usecases/offers/make-offer.ts';
import { proposeAmendment, proposeClosing } from '../../../usecases/offers/propose-amendment.ts';
import { readOffer } from '../../../usecases/offers/read-offer.ts';
import { readOfferList } from '../../../usecases/offers/read-offer-list.ts';
import { badInput } from '../../../usecases/read-input-rows.ts';
import {
  DOCUMENT,
  FEED_LIST,
  LOT_VIEW,
  OFFER_GROUP,
  OFFER_VIEW,
  SENDING,
} from '../answers/bargain-answers.ts';
import { ID } from '../answers/scalars.ts';
import { operation } from '../operation.ts';

/** As the page of feed for sale is asked: prices to reckon with, haulage, which lots, in what order. */
const FEED_QUERY = z.looseObject({}).catchall(z.string());

function feedRequest(query: Readonly<Record<string, unknown>>) {
  const texts = Object.entries(query).flatMap(([name, text]) =>
    typeof text === 'string' ? [[name, text] as const] : [],
  );
  const { request, problems } = readFeedRequest(new Map(texts));
  if (problems.length > 0) throw badInput(problems);
  return request;
}

export const listLots = operation({
  id: 'listLots',
  method: 'GET',
  path: '/lots',
  summary: 'The lots that the party may see, its own apart.',
  scopes: [],
  refusals: [],
  query: FEED_QUERY,
  answer: FEED_LIST,
  work: async (context, { query }) =>
    await readFeedForSale(context, { request: feedRequest(query), locale: NO_LANGUAGE }),
});

export const readOneLot = operation({
  id: 'readLot',
  method: 'GET',
  path: '/lots/{id}',
  summary: 'One lot, and what it costs the party on its own basis.',
  scopes: [],
  refusals: ['not-found'],
  query: FEED_QUERY,
  answer: LOT_VIEW,
  work: async (context, { in: { id }, query }) =>
    await readLotView(context, { lotId: id, basis: feedRequest(query), locale: NO_LANGUAGE }),
});

const LOT_BODY = z.strictObject({
  document: z.unknown().meta({ description: 'What is said of the lot.', type: 'object' }),
  address: z.string().exactOptional().describe('Told to the buyer once both sides have signed.'),
});

export const draftOneLot = operation({
  id: 'draftLot',
  method: 'POST',
  path: '/lots',
  summary: 'Writes feed for sale down, as a draft that only the seller sees.',
  scopes: [],
  refusals: [],
  body: LOT_BODY,
  answer: z.strictObject({ lotId: ID }),
  work: async (context, { body, once }) => await draftLot(context, { ...body, ...once }),
});

export const changeOneLot = operation({
  id: 'changeLot',
  method: 'POST',
  path: '/lots/{id}',
  summary: 'Writes a new version of a lot; one that is posted shows it at once.',
  scopes: [],
  refusals: ['not-found', 'not-yours', 'lot-closed'],
  body: LOT_BODY,
  answer: z.strictObject({ version: z.int() }),
  work: async (context, { in: { id }, body, once }) =>
    await changeLot(context, { lotId: id, ...body, ...once }),
});

export const postOneLot = operation({
  id: 'postLot',
  method: 'POST',
  path: '/lots/{id}/posting',
  summary: 'Posts a lot for everyone who is signed in, or for invited parties alone.',
  scopes: [],
  refusals: ['not-found', 'not-yours', 'lot-closed'],
  body: z.strictObject({
    audience: z.string().meta({ enum: ['everyone', 'invited'] }),
    publicParts: z.array(z.string()).exactOptional().describe('What anybody may see without signing in.'),
  }),
  answer: z.strictObject({ posted: z.literal(true) }),
  work: async (context, { in: { id }, body, once }) =>
    await postLot(context, { lotId: id, ...body, ...once }),
});

export const withdrawOneLot = operation({
  id: 'withdrawLot',
  method: 'POST',
  path: '/lots/{id}/withdrawal',
  summary: 'Takes a lot back; open offers on it end, and their buyers are told.',
  scopes: [],
  refusals: ['not-found', 'not-yours', 'lot-closed'],
  body: z.strictObject({}),
  answer: z.strictObject({ endedOffers: z.int() }),
  work: async (context, { in: { id }, once }) => await withdrawLot(context, { lotId: id, ...once }),
});

export const listOffers = operation({
  id: 'listOffers',
  method: 'GET',
  path: '/offers',
  summary: 'The offers of the party, by what they are about.',
  scopes: [],
  refusals: [],
  answer: z.strictObject({ groups: z.array(OFFER_GROUP) }),
  work: async (context) => ({
    groups: (await readOfferList(context, { locale: NO_LANGUAGE })).map(({ beside, ...group }) => ({
      ...group,
      beside: beside && { ...beside, prices: Object.fromEntries(beside.prices) },
    })),
  }),
});

export const readOneOffer = operation({
  id: 'readOffer',
  method: 'GET',
  path: '/offers/{id}',
  summary: 'One offer with all its versions and the signatures under each.',
  scopes: [],
  refusals: ['not-found'],
  answer: OFFER_VIEW,
  work: async (context, { in: { id } }) => await readOffer(context, { offerId: id }),
});

export const makeOneOffer = operation({
  id: 'makeOffer',
  method: 'POST',
  path: '/offers',
  summary: 'Makes an offer on a lot: a whole agreement.',
  scopes: [],
  refusals: ['not-found', 'not-yours', 'lot-closed', 'offer-open'],
  body: z.strictObject({ lotId: z.string(), document: DOCUMENT, ...SENDING }),
  answer: z.strictObject({ offerId: ID }),
  work: async (context, { body, once }) => await makeOffer(context, { ...body, ...once }),
});

export const counterOneOffer = operation({
  id: 'counterOffer',
  method: 'POST',
  path: '/offers/{id}/versions',
  summary: 'Sends a new version of an offer, held against the newest.',
  scopes: [],
  refusals: ['not-found', 'not-yours', 'lot-closed', 'offer-over', 'offer-moved'],
  body: z.strictObject({
    baseVersion: z.int(),
    document: DOCUMENT,
    effectiveFrom: z
      .string()
      .exactOptional()
      .describe('For an amendment: the local date from which it counts.'),
    ...SENDING,
  }),
  answer: z.strictObject({ version: z.int() }),
  work: async (context, { in: { id }, body, once }) =>
    await counterOffer(context, { offerId: id, ...body, ...once }),
});

export const endOneOffer = operation({
  id: 'endOffer',
  method: 'POST',
  path: '/offers/{id}/ending',
  summary: 'Ends an offer: whoever sent the newest version withdraws it, the other side declines it.',
  scopes: [],
  refusals: ['not-found', 'not-yours', 'offer-over'],
  body: z.strictObject({}),
  answer: z.strictObject({ ending: z.enum(['withdrawn', 'declined']) }),
  work: async (context, { in: { id }, once }) => await endOffer(context, { offerId: id, ...once }),
});

export const proposeOneAmendment = operation({
  id: 'proposeAmendment',
  method: 'POST',
  path: '/agreements/{id}/amendments',
  summary: 'Proposes other terms of an agreement from a day on.',
  scopes: [],
  refusals: ['not-found', 'not-yours', 'agreement-closed', 'offer-open'],
  body: z.strictObject({ document: DOCUMENT, effectiveFrom: z.string(), ...SENDING }),
  answer: z.strictObject({ offerId: ID }),
  work: async (context, { in: { id }, body, once }) =>
    await proposeAmendment(context, { agreementId: id, ...body, ...once }),
});

export const proposeOneClosing = operation({
  id: 'proposeClosing',
  method: 'POST',
  path: '/agreements/{id}/closings',
  summary: 'Proposes to close an agreement early.',
  scopes: [],
  refusals: ['not-found', 'not-yours', 'agreement-closed', 'offer-open'],
  body: z.strictObject({ lastDelivery: z.string(), reason: z.string().default(''), ...SENDING }),
  answer: z.strictObject({ offerId: ID }),
  work: async (context, { in: { id }, body, once }) =>
    await proposeClosing(context, { agreementId: id, ...body, ...once }),
});
