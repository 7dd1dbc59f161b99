/**
 * Terms that are offered here: an agreement file that is sound, with conditions and retest rules of the known shape.
 */
import { checkAgreement } from '../agreement/check-agreement.ts';
import { checkConditions } from '../agreement/conditions.ts';
import type { Agreement } from '../agreement/document.ts';
import type { AgreementProblem } from '../agreement/problem.ts';
import { checkRetestRules } from '../agreement/retest-rules.ts';

export interface CheckedTerms {
  readonly agreement: Agreement | undefined;
  readonly problems: readonly AgreementProblem[];
}

/** Checks a parsed document. Returns all problems with their paths. */
export function checkTerms(document: Readonly<Record<string, unknown>>): CheckedTerms {
  const { agreement, problems } = checkAgreement(document);
  const { conditions, retest } = document;
  const strict = [
    ...(conditions === undefined ? [] : checkConditions(conditions)),
    ...(retest === undefined ? [] : checkRetestRules(retest)),
  ];
  // A fault that both checks see is told once.
  const seen = new Set(problems.map(({ path }) => JSON.stringify(path)));
  const all = [...problems, ...strict.filter(({ path }) => !seen.has(JSON.stringify(path)))];
  return all.length === 0 ? { agreement, problems: all } : { agreement: undefined, problems: all };
}

/** What an amendment leaves as it is: whose agreement it is, for what feed, in which money and whose days. */
const KEPT_KEYS = ['id', 'seller', 'buyer', 'feed', 'currency', 'timeZone'] as const;

/** Problems of an amendment that changes what only a new agreement can. */
export function checkAmendment(before: Agreement, after: Agreement): AgreementProblem[] {
  return KEPT_KEYS.filter((key) => before[key] !== after[key]).map((key) => ({
    path: [key],
    message: `stays ${JSON.stringify(before[key])} as long as the agreement runs; a change of it needs a new agreement`,
  }));
}
