/**
 * What became of one load: settled with its lines, refused by the buyer, or waiting for something that has a name.
 */
import type { DeliveredLoad } from '../deliveries/delivered-load.ts';
import type { Exact } from '../numbers/exact.ts';
import type { ReferencePrice } from '../prices/reference-price.ts';
import type { LabResult } from '../samples/lab-result.ts';
import type { Line } from './line.ts';
import type { UsedFigures } from './measured-load.ts';

/** Why a load waits; the first that applies is given, in this order (the last four in the order of the terms). */
export const WAITING_REASONS = [
  'no-result',
  'choice-needed',
  'refusal-contested',
  'no-quote',
  'not-elected',
  'month-open',
  'outside-table',
] as const;
export type WaitingReason = (typeof WAITING_REASONS)[number];

interface Known {
  readonly load: DeliveredLoad;
  readonly result: LabResult | undefined;
  /** Figures as the agreement uses them: those that it needs, and dry matter, starch and NDF. */
  readonly figures: UsedFigures;
  /** Pounds of dry matter, where a result is known. */
  readonly dryPounds: Exact | undefined;
}

export interface Settled extends Known {
  readonly status: 'settled';
  /** The references that its terms are priced by, by name. */
  readonly prices: ReadonlyMap<string, ReferencePrice>;
  readonly lines: readonly Line[];
  /** Sum of the lines, in minor units. */
  readonly total: bigint;
}

export interface Refused extends Known {
  readonly status: 'refused';
  /** The agreed ranges that it lies outside of, in words. */
  readonly breaches: readonly string[];
}

export interface Waiting extends Known {
  readonly status: 'waiting';
  readonly reason: WaitingReason;
  /** The reason in words. */
  readonly detail: string;
}

export type Outcome = Settled | Refused | Waiting;
