/**
 * Settlements and corrections as /api/v1 tells them.
 */
import { z } from 'zod';
import { CURRENCY, DECIMAL, ID, MOMENT, VERSION } from './scalars.ts';

export const SETTLEMENT = z.strictObject({
  id: ID,
  loadId: ID,
  ticket: z.string(),
  version: VERSION,
  loadVersion: VERSION.describe('The version of the ticket that it rests on.'),
  resultId: ID.nullable().describe('The result that it rests on.'),
  status: z.enum(['settled', 'refused']),
  currency: CURRENCY,
  total: DECIMAL,
  settledAt: MOMENT,
  lines: z.array(
    z.strictObject({
      label: z.string(),
      quantity: DECIMAL,
      unit: z.string(),
      rate: DECIMAL,
      amount: DECIMAL,
      how: z.string().describe('The multiplication, to repeat on a pocket calculator.'),
    }),
  ),
  prices: z.array(z.strictObject({ reference: z.string(), price: DECIMAL, quote: DECIMAL })),
  quoteIds: z.array(ID).describe('The quotes that it rests on.'),
});

export const CORRECTION = z.strictObject({
  id: ID,
  subject: z.enum(['load', 'result', 'quote']),
  subjectId: ID,
  figures: z.record(z.string(), z.string()).describe('The whole row as it is to be.'),
  reason: z.string(),
  isOurs: z.boolean().describe('Whether the caller’s own party proposed it.'),
  proposedAt: MOMENT,
  answer: z.enum(['confirmed', 'refused', 'withdrawn']).nullable().describe('null while it is open.'),
  answerReason: z.string().nullable(),
});

export const ALLOWANCE = z.strictObject({
  id: ID,
  loadId: ID,
  ticket: z.string(),
  takenOff: DECIMAL,
  per: z.string(),
  weight: z.string().nullable(),
  words: z.string(),
  reason: z.string(),
  isOurs: z.boolean().describe('Whether the caller’s own party proposed it.'),
  answer: z.enum(['confirmed', 'refused', 'withdrawn']).nullable().describe('null while it is open.'),
  answerReason: z.string().nullable(),
});
