/**
 * Lots and offers as /api/v1 tells them: what programs look for is described; what else the pages show goes with it.
 */
import { z } from 'zod';
import { COUNT, FINGERPRINT, ID, MOMENT, SIDE } from './scalars.ts';

/** An agreement file. */
export const DOCUMENT = z.record(z.string(), z.unknown()).meta({ description: 'An agreement file.' });

/** What goes with a version beside its terms. */
export const SENDING = {
  message: z.string().default('').describe('A few words to the other side.'),
  validDays: z.string().describe('For how many days it stands: "7".'),
};

const LOT_SUMMARY = z.looseObject({
  id: ID,
  number: COUNT,
  seller: z.string(),
  isOwn: z.boolean(),
  standing: z.string().describe('"draft", "posted", "under-offer", "sold", "withdrawn" or "over".'),
  feed: z.string(),
  feedWords: z.string().describe('With the parts of the ear in it.'),
  amount: z.string(),
  until: z.string(),
});

export const FEED_LIST: z.ZodType<unknown> = z.looseObject({
  own: z.array(LOT_SUMMARY).describe('The party’s own, in every state.'),
  others: z.array(LOT_SUMMARY),
  leftOut: COUNT,
});

export const LOT_VIEW: z.ZodType<unknown> = z.looseObject({
  summary: LOT_SUMMARY,
  version: COUNT,
  updatedAt: MOMENT,
  document: z.record(z.string(), z.unknown()),
  address: z.string().nullable().describe('For the seller, and the buyer once both have signed.'),
});

export const OFFER_GROUP: z.ZodType<unknown> = z.looseObject({
  offers: z.array(z.looseObject({ id: ID, standing: z.string() })),
});

const VERSION_VIEW = z.looseObject({
  version: COUNT,
  by: SIDE,
  document: z.record(z.string(), z.unknown()),
  fingerprint: FINGERPRINT,
  message: z.string().nullable(),
  signatures: z.array(z.looseObject({ party: z.string(), side: SIDE, name: z.string(), signedAt: MOMENT })),
});

export const OFFER_VIEW: z.ZodType<unknown> = z.looseObject({
  id: ID,
  purpose: z.enum(['agreement', 'amendment', 'closing']),
  state: z.string(),
  seller: z.string(),
  buyer: z.string(),
  versions: z.array(VERSION_VIEW),
  newest: VERSION_VIEW,
});
