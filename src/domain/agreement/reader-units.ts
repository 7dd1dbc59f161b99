/**
 * The units that an agreement's people think in, for tables and papers; the settlement itself is exact in any.
 */
import type { Agreement } from './document.ts';

export interface ReaderUnits {
  readonly weight: 'lb' | 'kg';
  readonly ton: 'short-ton' | 'tonne';
}

const METRIC: readonly string[] = ['tonne', 'kg', 'km'];

/** Metric where the agreement prices anything by the tonne, kilogram or kilometre; pounds and short tons elsewhere. */
export function readerUnits({ price, references }: Pick<Agreement, 'price' | 'references'>): ReaderUnits {
  const metric =
    price.some((term) => 'per' in term && term.per !== undefined && METRIC.includes(term.per)) ||
    Object.values(references).some(({ unit }) => METRIC.includes(unit));
  return metric ? { weight: 'kg', ton: 'tonne' } : { weight: 'lb', ton: 'short-ton' };
}
