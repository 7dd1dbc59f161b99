/**
 * Loads as /api/v1 tells them: how each stands, and everything that is known of one.
 */
import { z } from 'zod';
import { WAITING_REASONS } from '../../../domain/settlement/outcome.ts';
import { COUNT, CURRENCY, DECIMAL, FINGERPRINT, ID, OWN_SIDE, VERSION, WALL_CLOCK } from './scalars.ts';

export const STANDING = z.discriminatedUnion('status', [
  z.strictObject({ status: z.literal('settled'), total: DECIMAL, currency: CURRENCY }),
  z.strictObject({ status: z.literal('ready'), total: DECIMAL, currency: CURRENCY }),
  z.strictObject({ status: z.literal('refused'), detail: z.string() }),
  z.strictObject({ status: z.literal('waiting'), reason: z.enum(WAITING_REASONS), detail: z.string() }),
]);

const SHARE = z
  .strictObject({ share: z.number(), percent: DECIMAL })
  .nullable()
  .describe('`share` is a length in a picture; reckon with `percent`. null: not tested.');

const STRIP = z.strictObject({
  weight: z.string(),
  length: z.number().describe('A length in a picture.'),
  water: SHARE,
  starch: SHARE,
  fibre: SHARE,
  restPercent: DECIMAL.nullable(),
});

export const LOAD_SUMMARY = z.strictObject({
  id: ID,
  agreementId: ID,
  agreementNumber: z.string(),
  ticket: z.string(),
  deliveredAt: WALL_CLOCK,
  seller: z.string(),
  buyer: z.string(),
  strip: STRIP,
  standing: STANDING,
});

const MEASURED = z.strictObject({ figure: DECIMAL, unit: z.string() });

export const LOAD = z.strictObject({
  id: ID,
  agreementId: ID,
  agreementNumber: z.string(),
  seller: z.string(),
  buyer: z.string(),
  side: OWN_SIDE,
  currency: CURRENCY,
  timeZone: z.string(),
  ticket: z.strictObject({
    ticket: z.string(),
    deliveredAt: WALL_CLOCK,
    truck: z.string().optional(),
    gross: MEASURED,
    tare: MEASURED,
    net: MEASURED,
    netConverted: DECIMAL.describe('Net in the unit of the agreement’s side of the world, lb or kg.'),
    strip: STRIP,
    dryMatterPercent: DECIMAL.optional(),
    starchPercent: DECIMAL.optional(),
    tests: z
      .strictObject({
        sample: z.string(),
        basis: z.string(),
        laboratory: z.string().optional(),
        measures: z.array(z.strictObject({ name: z.string(), figure: z.string(), unit: z.string() })),
      })
      .optional(),
  }),
  sample: z.string().optional(),
  standing: STANDING,
  price: z
    .strictObject({
      references: z.array(
        z.strictObject({
          name: z.string(),
          series: z.string().optional(),
          quote: DECIMAL,
          quotedOn: z.array(z.string()),
          price: DECIMAL,
          unit: z.string(),
        }),
      ),
      lines: z.array(
        z.strictObject({
          label: z.string(),
          quantity: DECIMAL,
          unit: z.string(),
          rate: DECIMAL,
          amount: DECIMAL,
          how: z.string(),
        }),
      ),
      total: DECIMAL,
    })
    .optional()
    .describe('Where it is settled or could be.'),
  amounts: z.array(DECIMAL).describe('Of each line.'),
  history: z.array(
    z.strictObject({
      at: WALL_CLOCK,
      kind: z.string(),
      person: z.string().optional().describe('Somebody of the caller’s own party.'),
      sequence: COUNT,
      fingerprint: FINGERPRINT,
    }),
  ),
  version: VERSION,
  isVoid: z.boolean().describe('A void ticket is no delivery.'),
  reason: z.string().optional().describe('Why it was put right last, or is void.'),
  wentTo: z.string().nullable().describe('Where it went after the buyer refused it.'),
});

export const WAITING_GROUP = z.strictObject({
  agreementId: ID,
  agreementNumber: z.string(),
  partner: z.string(),
  what: z.enum([...WAITING_REASONS, 'ready']),
  loads: COUNT,
  oldestId: ID,
  days: COUNT,
  yours: z.boolean().describe('Whether the caller’s party can end the wait.'),
});

export const RECORDED_LOAD = z.strictObject({
  id: ID,
  ticket: z.string(),
  isNew: z.boolean().describe('False: it was there.'),
});

export const NEW_VERSION = z.strictObject({ version: VERSION });
