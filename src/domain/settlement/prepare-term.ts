/**
 * A price term made ready: its fixed figures read once, the measures it needs, and a function from load to line.
 */
import type { Agreement, PriceTerm, Reference, WeightBasis } from '../agreement/document.ts';
import type { Measure } from '../agreement/measures.ts';
import type { Line, Money, TermLack } from './line.ts';
import { needed, type PricingContext } from './measured-load.ts';
import { measureOfPart } from './parts.ts';
import { equivalentBushelsLine } from './terms/equivalent-bushels.ts';
import { flatLine } from './terms/flat.ts';
import { limitLine } from './terms/limit.ts';
import { constituentLine, remainderLine } from './terms/priced-share.ts';
import { scheduleLine } from './terms/schedule.ts';

export interface PreparedTerm {
  /** The reference that it is priced by, if any. */
  readonly reference: string | undefined;
  readonly needs: readonly Measure[];
  readonly evaluate: (context: PricingContext) => Line | TermLack;
}

/** What a term is worked out with beside its own figures. */
export interface TermSetting {
  readonly references: Agreement['references'];
  readonly money: Money;
}

/** One term of a checked agreement. */
export function prepareTerm(term: PriceTerm, setting: TermSetting): PreparedTerm {
  return { reference: referenceOf(term), needs: measuresNeeded(term), evaluate: evaluator(term, setting) };
}

function evaluator(term: PriceTerm, { references, money }: TermSetting): PreparedTerm['evaluate'] {
  const referenceNamed = (name: string): Reference => needed(references[name], `reference ${name}`);
  switch (term.term) {
    case 'constituent':
      return constituentLine(term, referenceNamed(term.at.reference), money);
    case 'remainder':
      return remainderLine(term, referenceNamed(term.at.reference), money);
    case 'equivalent-bushels':
      return equivalentBushelsLine(term, referenceNamed(term.at.reference), money);
    case 'flat':
      return flatLine(term, money);
    case 'schedule':
      return scheduleLine(term, money);
    case 'limit':
      return limitLine(term, money);
  }
}

/** The reference that a term is priced by, if any. */
export function referenceOf(term: PriceTerm): string | undefined {
  return 'at' in term ? term.at.reference : undefined;
}

/** The figures without which a term cannot be priced. */
export function measuresNeeded(term: PriceTerm): readonly Measure[] {
  switch (term.term) {
    case 'constituent':
      return ['dry-matter', measureOfPart(term.of)];
    case 'remainder':
      return ['dry-matter', ...term.after.map(measureOfPart)];
    case 'equivalent-bushels':
      return term.method.kind === 'dry-matter' ? ['dry-matter'] : ['moisture'];
    case 'schedule':
      return [term.on, ...forWeight(term.weight)];
    case 'flat':
    case 'limit':
      return forWeight(term.weight);
  }
}

function forWeight(weight: WeightBasis | undefined): readonly Measure[] {
  return weight === 'dry-matter' ? ['dry-matter'] : [];
}

/** True where a term is per mile or km, so that every load must have a distance. */
export function needsDistance(term: PriceTerm): boolean {
  return 'per' in term && (term.per === 'mile' || term.per === 'km');
}
