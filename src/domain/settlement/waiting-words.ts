/**
 * Why a load waits, in words that say what it waits for.
 */
import type { Agreement } from '../agreement/document.ts';
import { MEASURE_NAMES, type Measure } from '../agreement/measures.ts';
import { sampleOf } from '../samples/sampling-plan.ts';
import type { MeasuredLoad } from './measured-load.ts';

/** The figures that are missing, and of which sample. */
export function tellMissing(
  { load, result }: MeasuredLoad,
  missing: readonly Measure[],
  agreement: Agreement,
): string {
  const names = nameMissing(missing);
  if (result) return `The result of sample ${result.sample} has no ${names}`;
  const sample = sampleOf(load, agreement);
  return sample === undefined
    ? `The ticket names no sample, and the agreement needs ${names}`
    : `There is no result of sample ${sample} yet; the agreement needs ${names}`;
}

/** Moisture follows from dry matter, so that one of the two is named once. */
function nameMissing(missing: readonly Measure[]): string {
  const told = missing.includes('dry-matter') ? missing.filter((name) => name !== 'moisture') : missing;
  return told.map((name) => MEASURE_NAMES[name]).join(', ');
}

/** A load outside its ranges, for which the buyer has not chosen, and what to know before choosing. */
export function tellChoiceNeeded(
  { breaches, cautions }: { readonly breaches: readonly string[]; readonly cautions: readonly string[] },
  { buyer }: Agreement,
): string {
  const needed = `${breaches.join('; ')}: ${buyer} must accept or refuse the load`;
  // The words around it end the sentence.
  return [needed, ...cautions.map((caution) => caution.replace(/\.$/, ''))].join('. ');
}

/** A refusal that is not the buyer's to give. */
export function tellContested({ acceptance, buyer }: Agreement): string {
  return acceptance === undefined || acceptance.length === 0
    ? `${buyer} refused the load, but the agreement names no range that it could lie outside of`
    : `${buyer} refused the load, but its figures lie within the agreed ranges`;
}
