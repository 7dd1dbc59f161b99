/**
 * Results that do not count for now, and why: a side contests the figures, or they leave less than nothing for a part
 * that the agreement pays for. A contest holds until its side confirms, or until other figures are reported: writing
 * the same figures once more does not end it.
 */
import { decimal, MAX_DECIMAL_LENGTH } from '../../domain/numbers/exact.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import { prepareRemainderCheck } from '../../domain/settlement/check-remainders.ts';
import type { ResultAnswerRow } from '../../store/rows/result-answer-rows.ts';
import type { ResultRow } from '../../store/rows/result-rows.ts';
import type { AgreedTerms } from '../agreements/find-agreement.ts';
import { labResult, resultFact } from './result-fact.ts';

export interface AnsweredResults {
  readonly terms: Pick<AgreedTerms, 'row' | 'agreement'>;
  /** Every version of the results, oldest first. */
  readonly versions: readonly ResultRow[];
  /** In the order in which they were given. */
  readonly answers: readonly ResultAnswerRow[];
}

/** Why each result does not count, in words, by sample; those that count are not there. */
export function unusableResults({ terms, versions, answers }: AnsweredResults): ReadonlyMap<string, string> {
  const unusable = new Map<string, string>();
  const check = prepareRemainderCheck(terms.agreement);
  for (const [sample, newest] of new Map(versions.map((row) => [row.sample, row]))) {
    const [contest] = contestsOf(newest, { versions, answers });
    if (contest) unusable.set(sample, tellContest(contest, { sample, terms }));
    else {
      const [negative] = check(labResult(newest));
      if (negative !== undefined) unusable.set(sample, `The result of sample ${sample} ${negative}`);
    }
  }
  return unusable;
}

/** The contests that stand against a result: the newest word of each side about its figures. */
export function contestsOf(
  newest: ResultRow,
  answered: Pick<AnsweredResults, 'versions' | 'answers'>,
): readonly ResultAnswerRow[] {
  return newestWords(newest, answered).filter(({ answer }) => answer === 'contest');
}

/** The newest word of each side about a result's figures, whichever version with those figures it was about. */
export function newestWords(
  newest: ResultRow,
  { versions, answers }: Pick<AnsweredResults, 'versions' | 'answers'>,
): readonly ResultAnswerRow[] {
  const figures = figuresText(newest);
  const same = new Set(
    versions
      .filter((row) => row.sample === newest.sample && figuresText(row) === figures)
      .map(({ id }) => id),
  );
  const words = new Map<string, ResultAnswerRow>();
  for (const answer of answers) if (same.has(answer.resultId)) words.set(answer.partyId, answer);
  return [...words.values()];
}

/** 54.00 is the same figure as 54. */
function withoutZeros(figure: string): string {
  return printDecimal(decimal(figure), MAX_DECIMAL_LENGTH);
}

function figuresText(row: ResultRow): string {
  const { basis, figures } = resultFact(row);
  const plain = Object.entries(figures).map(([measure, figure]) => [measure, withoutZeros(figure)]);
  return JSON.stringify([basis, plain]);
}

function tellContest(
  { partyId, reason }: ResultAnswerRow,
  { sample, terms }: { readonly sample: string; readonly terms: AnsweredResults['terms'] },
): string {
  const { sellerId, sellerName, buyerName } = terms.row;
  const who = partyId === sellerId ? sellerName : buyerName;
  return `${who} contests the result of sample ${sample}: ${(reason ?? '').replace(/\.$/, '')}`;
}
