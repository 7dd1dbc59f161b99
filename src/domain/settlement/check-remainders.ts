/**
 * Results that would leave less than nothing for a `remainder` term: the figures of such a sample cannot all be right.
 */
import type { AgreementParts } from '../agreement/check-agreement.ts';
import { HUNDRED, isNegative, multiply } from '../numbers/exact.ts';
import { printWithEllipsis } from '../numbers/printing.ts';
import { type LabResult, testRules, usedFigure } from '../samples/lab-result.ts';
import { needed, type UsedFigures } from './measured-load.ts';
import { measureOfPart } from './parts.ts';
import { remainderShare } from './terms/priced-share.ts';

/** A function that says, in words, which remainder of the agreement a result makes negative. */
export function prepareRemainderCheck(agreement: AgreementParts): (result: LabResult) => string[] {
  const rules = testRules(agreement);
  const terms = agreement.price.flatMap((term) => (term.term === 'remainder' ? [term] : []));
  return (result) =>
    terms.flatMap((term) => {
      const figures: UsedFigures = {};
      for (const measure of term.after.map(measureOfPart)) {
        const figure = usedFigure(result, measure, rules);
        if (figure === undefined) return [];
        figures[measure] = figure;
      }
      const reference = needed(agreement.references[term.at.reference], 'reference');
      const left = remainderShare(term, reference, figures);
      if (!isNegative(left)) return [];
      const shown = printWithEllipsis(multiply(left, HUNDRED), 4);
      return [
        `leaves ${shown} % of the dry matter for "${term.label}", after ${term.after.join(' and ')}; less than nothing cannot be left`,
      ];
    });
}
