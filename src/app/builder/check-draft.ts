/**
 * A draft held against the agreement file's rules and, where it has them, those of the retest and conditions blocks.
 */
import { checkAgreement } from '../../domain/agreement/check-agreement.ts';
import { checkConditions } from '../../domain/agreement/conditions.ts';
import type { Agreement } from '../../domain/agreement/document.ts';
import type { AgreementProblem } from '../../domain/agreement/problem.ts';
import { checkRetestRules } from '../../domain/agreement/retest-rules.ts';
import { type Draft, readAt } from './document-path.ts';

export interface CheckedDraft {
  /** Undefined where there are problems. */
  readonly agreement: Agreement | undefined;
  /** In the file's own words. */
  readonly problems: readonly AgreementProblem[];
}

export function checkDraft(draft: Draft): CheckedDraft {
  const { agreement, problems } = checkAgreement(draft);
  const blocks = [
    ...(readAt(draft, ['retest']) === undefined ? [] : checkRetestRules(draft['retest'])),
    ...(readAt(draft, ['conditions']) === undefined ? [] : checkConditions(draft['conditions'])),
  ];
  return { agreement: blocks.length > 0 ? undefined : agreement, problems: [...problems, ...blocks] };
}
