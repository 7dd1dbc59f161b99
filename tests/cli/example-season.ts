/**
 * A small season that settles without a fault, for tests to bend.
 */
import { workedExample } from '../oracle/worked-example.ts';

export const AGREEMENT = workedExample.agreement;

export const LOADS = `ticket,delivered_at,gross,tare,unit,sample
T1,2026-09-14T21:40:00-06:00,78220,31100,lb,S1
T2,2026-09-15T10:00:00-06:00,78220,31400,lb,S2
`;
export const SAMPLES = 'sample,basis,dry_matter,starch,ndf\nS1,dry-matter,59.2,54,31.34\n';
export const PRICES =
  'series,date,price\ncorn-elevator-bid,2026-09-14,4.20\ncorn-elevator-bid,2026-09-15,4.25\n';

/** The files of the season, some of them replaced (undefined leaves one out). */
export function seasonWith(
  files: Readonly<Record<string, string | Uint8Array | undefined>> = {},
): Record<string, string | Uint8Array | undefined> {
  return {
    'agreement.json': JSON.stringify(AGREEMENT, undefined, 2),
    'loads.csv': LOADS,
    'samples.csv': SAMPLES,
    'prices.csv': PRICES,
    ...files,
  };
}
