/**
 * What a scale house asks for: trucks that are still to be weighed empty, the book of tickets, trucks and scales.
 */
import { z } from 'zod';
import { COUNT, DATE, DECIMAL, ID, MOMENT, VERSION, WALL_CLOCK } from './scalars.ts';

export const OPEN_WEIGHING = z.strictObject({
  id: ID,
  ticket: z.string(),
  weighedAt: MOMENT,
  weighedAtLocal: WALL_CLOCK,
  gross: DECIMAL,
  unit: z.string(),
  truck: z.string().nullable(),
  plate: z.string().nullable(),
  scale: ID.nullable(),
  sample: z.string().nullable(),
  weigher: z.string().nullable(),
  moistureReading: DECIMAL.nullable(),
});

const TICKET_ENTRY = z.strictObject({
  ticket: z.string(),
  use: z.enum(['load', 'void', 'elsewhere', 'weighing']),
  loadId: ID.nullable(),
  reason: z.string().nullable(),
});

export const TICKET_BOOK = z.strictObject({
  series: z.array(
    z.strictObject({
      prefix: z.string(),
      first: z.string(),
      next: z.string(),
      entries: z.array(TICKET_ENTRY),
      missing: z.array(z.strictObject({ from: z.string(), to: z.string(), count: COUNT })),
    }),
  ),
  others: z.array(TICKET_ENTRY).describe('Tickets of no series.'),
});

export const TRUCK = z.strictObject({
  truck: z.string(),
  plate: z.string().nullable(),
  unit: z.enum(['lb', 'kg']),
  usualTare: DECIMAL.describe('The median of its last loads.'),
  usualNet: DECIMAL,
  loads: COUNT,
  lastAt: MOMENT,
});

export const SCALE = z.strictObject({
  id: ID,
  owner: z.string(),
  isOwn: z.boolean(),
  version: VERSION,
  name: z.string(),
  place: z.string(),
  unit: z.string(),
  capacity: DECIMAL,
  division: DECIMAL,
  accuracyClass: z.string(),
  isLegalForTrade: z.boolean(),
  testedOn: DATE.nullable(),
  testDueOn: DATE.nullable(),
  certificate: z.string().nullable(),
  test: z.strictObject({
    is: z.enum(['fine', 'due', 'overdue', 'never-tested']),
    testedOn: DATE.optional(),
    dueOn: DATE.optional(),
    days: COUNT.optional(),
  }),
  testInWords: z.string(),
  mayBeOff: DECIMAL.nullable().describe('How far it may be off at its capacity and still pass its test.'),
});
