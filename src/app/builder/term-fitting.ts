/**
 * Price terms as they begin, and how one choice in a term changes what else it holds: money per load has no weight, a
 * percent is per nothing, another bushel method has figures of its own.
 */
import type { PriceTerm } from '../../domain/agreement/document.ts';
import { type Draft, readAt } from './document-path.ts';
import { isWeighed } from './format-words.ts';

function without(group: unknown, keys: readonly string[]): Record<string, unknown> {
  return Object.fromEntries(Object.entries((group ?? {}) as Draft).filter(([key]) => !keys.includes(key)));
}

/** The term with its money per something else; the weight goes, or comes, with it. */
export function fitWeight(per: string, before: unknown): unknown {
  if (!isWeighed(per)) return { ...without(before, ['weight']), per };
  return { ...without(before, []), per, weight: readAt(before, ['weight']) ?? 'as-fed' };
}

/** The schedule in money or in percent; a percent is per nothing. */
export function unitOf(unit: string, before: unknown): unknown {
  if (unit === 'percent') return { ...without(before, ['per', 'weight']), unit };
  const per = readAt(before, ['per']);
  return { ...(fitWeight(typeof per === 'string' ? per : 'short-ton', before) as Draft), unit };
}

/** A bushel method with nothing but what it cannot be without. */
export function methodOf(kind: string): unknown {
  return kind === 'table' ? { kind, rows: [{}], between: 'linear' } : { kind };
}

export interface TermBeginning {
  /** The first reference that there is. */
  readonly reference: string | undefined;
  readonly ton: 'short-ton' | 'tonne';
}

/** A term of a kind as the builder adds it. What money it is about is left to be filled in. */
export function beginTerm(kind: PriceTerm['term'], { reference, ton }: TermBeginning): Draft {
  const followed = reference === undefined ? {} : { reference };
  const at = { ...followed, per: 'dry-matter' };
  const wet = { per: ton, weight: 'as-fed' };
  switch (kind) {
    case 'constituent':
      return { term: kind, label: 'Grain, by its starch', of: 'grain-equivalent', at, sharePercent: '100' };
    case 'remainder':
      return { term: kind, label: 'Cob, husk and other fibre', after: ['grain-equivalent'], at };
    case 'equivalent-bushels':
      return { term: kind, label: 'Dry-equivalent bushels', method: methodOf('dry-matter'), at: followed };
    case 'flat':
      return { term: kind, label: 'Flat rate', ...wet };
    case 'schedule':
      return {
        term: kind,
        label: 'Fibre above range',
        on: 'ndf',
        neutral: { from: '0' },
        above: [{}],
        count: 'exact',
        unit: 'money',
        per: ton,
        weight: 'dry-matter',
      };
    case 'limit':
      return { term: kind, label: 'Least and most', ...wet };
  }
}

const METRIC: readonly unknown[] = ['tonne', 'kg', 'km'];

/** The ton that the draft's people think in, as far as it says. */
export function tonOf(draft: Draft): 'short-ton' | 'tonne' {
  const terms = Array.isArray(draft['price']) ? draft['price'] : [];
  const references = Object.values((draft['references'] ?? {}) as Draft);
  const isMetric =
    terms.some((term) => METRIC.includes(readAt(term, ['per']))) ||
    references.some((reference) => METRIC.includes(readAt(reference, ['unit'])));
  return isMetric ? 'tonne' : 'short-ton';
}
