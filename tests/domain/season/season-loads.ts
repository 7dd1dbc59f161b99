/**
 * Loads for the tests of a season, as short as they can be said.
 */
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import { decimal, whole } from '../../../src/domain/numbers/exact.ts';
import type { CountedLoad } from '../../../src/domain/progress/progress.ts';
import type { LabResult } from '../../../src/domain/samples/lab-result.ts';

/** Percent of dry matter; without a starch the laboratory reported none. */
export function result(sample: string, dryMatter: string, starch?: string): LabResult {
  return {
    sample,
    basis: 'dry-matter',
    dryMatter: decimal(dryMatter),
    reported: starch === undefined ? [] : ['starch'],
    figures: starch === undefined ? [] : [decimal(starch)],
  };
}

export interface Short {
  readonly on: string;
  readonly pounds: number;
  readonly of?: LabResult;
  /** Cents. */
  readonly value?: bigint;
  readonly truck?: string;
}

export function load({ on, pounds, of, value, truck }: Short): CountedLoad {
  return {
    load: {
      ticket: `${on} ${pounds}`,
      deliveredAt: 0,
      deliveredOn: on as LocalDate,
      unit: 'lb',
      gross: whole(pounds + 30_000),
      tare: whole(30_000),
      net: whole(pounds),
      netPounds: whole(pounds),
      ...(truck === undefined ? {} : { truck }),
    },
    result: of,
    rules: { rounding: 'half-up', decimals: new Map() },
    deliveredAt: `${on} 08:00`,
    value,
  };
}
