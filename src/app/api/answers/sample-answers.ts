/**
 * The samples of an agreement as /api/v1 tells them.
 */
import { z } from 'zod';
import { COUNT, DATE, ID, MOMENT } from './scalars.ts';

const PART = z.strictObject({
  id: ID,
  part: z.string(),
  seal: z.string(),
  isAirtight: z.boolean(),
  keptWhere: z.string(),
  keptUntil: DATE.nullable(),
  holder: z.string(),
  isSealIntact: z.boolean(),
  handovers: z.array(
    z.strictObject({
      id: ID,
      handedAt: MOMENT,
      toWhom: z.string(),
      keptWhere: z.string(),
      keptUntil: DATE.nullable(),
      isSealIntact: z.boolean(),
    }),
  ),
  goneBefore: DATE.nullable().describe(
    'The last day on which the figures can be questioned, where the part is kept for less.',
  ),
});

export const SAMPLES = z.strictObject({
  plan: z.string(),
  samples: z.array(
    z.strictObject({
      sample: z.string(),
      loads: COUNT,
      resultAt: MOMENT.nullable(),
      taking: z.strictObject({ takenAt: MOMENT, takenBy: z.string(), how: z.string() }).optional(),
      parts: z.array(PART),
    }),
  ),
  unsampled: z
    .array(z.strictObject({ id: ID, ticket: z.string(), deliveredOn: DATE }))
    .describe('Loads that no sample stands for.'),
  awaited: z.array(z.string()).describe('Samples without a result.'),
  goneTooSoon: z.array(z.string()).describe('Seals of parts that are kept for too short a time.'),
  cautions: z.array(z.strictObject({ words: z.string(), body: z.string() })),
});
