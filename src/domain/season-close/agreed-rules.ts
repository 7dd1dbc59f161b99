/**
 * The rules for the season as a whole that an agreement can have, in the order in which they are worked out.
 */
import type { SeasonRule } from '../money/money-document.ts';

export const AGREED_RULES = ['shortfall', 'surplus', 'true-up'] as const satisfies readonly SeasonRule[];
export type AgreedRule = (typeof AGREED_RULES)[number];

/** What a rule is called, on a note's line and above what it comes to. */
export const RULE_NAMES: Readonly<Record<AgreedRule, string>> = {
  shortfall: 'Short of the agreed volume',
  surplus: 'Beyond the agreed volume',
  'true-up': 'Priced again by the season’s averages',
};
