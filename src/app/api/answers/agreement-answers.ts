/**
 * Agreements as /api/v1 tells them.
 */
import { z } from 'zod';
import { COUNT, CURRENCY, DATE, DECIMAL, FINGERPRINT, ID, OWN_SIDE, VERSION } from './scalars.ts';

export const AGREEMENT_SUMMARY = z.strictObject({
  id: ID,
  number: z.string(),
  version: VERSION,
  seller: z.string(),
  buyer: z.string(),
  side: OWN_SIDE.describe('Which side the caller’s party is on.'),
  feed: z.string().describe('With the parts of the ear in it.'),
  serial: COUNT.nullable().describe('Its number among the seller’s; null for one that was signed elsewhere.'),
  closedOn: DATE.nullable().describe('The last day of deliveries, where both closed it early.'),
  isSealed: z.boolean().describe('Whether both have signed its season shut, so that it takes no entry.'),
  loads: COUNT,
  waiting: COUNT.describe('Loads that have not settled.'),
  owed: DECIMAL.describe('What the buyer owes the seller for settled loads; below 0 where the seller owes.'),
  currency: CURRENCY,
});

export const AGREEMENT = z.strictObject({
  id: ID,
  number: z.string(),
  version: VERSION,
  fingerprint: FINGERPRINT,
  seller: z.string(),
  buyer: z.string(),
  side: OWN_SIDE,
  isSealed: z.boolean().describe('Whether both have signed its season shut, so that it takes no entry.'),
  timeZone: z.string().describe('IANA name.'),
  currency: CURRENCY,
  sections: z
    .array(z.strictObject({ heading: z.string(), paragraphs: z.array(z.string()) }))
    .describe('The whole agreement in sentences.'),
  series: z.array(z.string()).describe('Names of the price series that it follows.'),
  distanceNeeded: z.boolean().describe('Whether each ticket must say how far it was hauled.'),
  sampling: z.string().describe('The sampling plan.'),
  testsNeeded: z.boolean().describe('Whether loads wait for laboratory figures.'),
  awaited: z
    .array(z.strictObject({ name: z.string(), loads: COUNT }))
    .describe('Samples without a result, oldest first, and how many loads each stands for.'),
});
