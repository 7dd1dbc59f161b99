/**
 * Single values as answers hold them. Weights, tests, prices and amounts are texts, so that no program rounds them.
 */
import { z } from 'zod';

export const ID = z.string().meta({ format: 'uuid' });
export const DECIMAL = z.string().describe('A decimal, such as "47120.5" or "-3.20".');
export const DATE = z.string().meta({ format: 'date', description: 'YYYY-MM-DD.' });
export const MOMENT = z.string().meta({ format: 'date-time', description: 'ISO 8601, UTC.' });
export const WALL_CLOCK = z.string().describe('On the agreement’s wall clock: "2026-09-14 21:40".');
export const COUNT = z.int().min(0);
export const VERSION = z.int().min(1).describe('1, and one more with each correction.');
export const SIDE = z.enum(['seller', 'buyer']);
/** The caller’s side; an adviser looks on. */
export const OWN_SIDE = z.enum(['seller', 'buyer', 'adviser']);
export const CURRENCY = z.string().describe('ISO 4217 code.');
export const FINGERPRINT = z.string().describe('SHA-256, 64 hexadecimal digits.');
export const CURSOR = z
  .string()
  .nullable()
  .describe('Send it as `next` for the page after this one; null on the last.');

/** An answer of an operation that records rows and counts those that are new. */
export const RECORDED = z.strictObject({ recorded: COUNT });
