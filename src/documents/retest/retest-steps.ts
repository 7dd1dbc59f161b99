/**
 * The steps of a question in order of day: asked, each figure and its answer, each proposal and its answer, the ending.
 */
import { otherSide } from '../../domain/retests/costs.ts';
import type { RecordedFigure, RecordedProposal, RetestRecord } from '../../domain/retests/retest-record.ts';
import { ANSWER_DAYS } from '../../domain/retests/time-limits.ts';
import { quoted, type RetestWords, shortly, subjectInside, withUnit } from './retest-setting.ts';
import { endingSentence } from './retest-words.ts';

export interface Step {
  /** Local date of the agreement. */
  readonly on: string;
  /** The side that took it; "The rule" where time or the rule did. */
  readonly who: string;
  readonly what: string;
}

/** Of one day, in the order in which one thing can follow from another. */
export function stepsOf(words: RetestWords): readonly Step[] {
  const { record } = words;
  const steps = [
    askedStep(words),
    ...record.figures.flatMap((figure) => figureSteps(figure, words)),
    ...record.proposals.flatMap((proposal) => proposalSteps(proposal, words)),
    ...endingSteps(words),
  ];
  return steps.toSorted((a, b) => (a.on < b.on ? -1 : Number(a.on > b.on)));
}

/** The day of the last step, which dates the paper. */
export function lastDay(words: RetestWords): string {
  return stepsOf(words).at(-1)?.on ?? words.record.askedOn;
}

function askedStep(words: RetestWords): Step {
  const { record } = words;
  const what = `Questions the ${subjectInside(record)}, reported as ${withUnit(record.first, words)}, and makes it ${shortly(record.claimed, words)}.`;
  return { on: record.askedOn, who: record[record.asker], what };
}

/** "52.40 by Bell Reach Referees". */
function namedFigure({ value, testedBy }: RecordedFigure, words: RetestWords): string {
  return `${shortly(value, words)} by ${testedBy}`;
}

function figureSteps(figure: RecordedFigure, words: RetestWords): Step[] {
  const { record } = words;
  const { by, enteredOn, answeredOn, standing, isUnanswered, testedOn } = figure;
  const name = namedFigure(figure, words);
  const entered = { on: enteredOn, who: record[by], what: `Enters ${name}, tested on ${testedOn}.` };
  if (answeredOn === null || standing === 'unanswered') return [entered];
  const other = record[otherSide(by)];
  if (standing === 'taken-back') {
    return [entered, { on: answeredOn, who: record[by], what: `Takes ${name} back, which is left out.` }];
  }
  if (isUnanswered) {
    const what = `${other} has said nothing to ${name} for ${ANSWER_DAYS} days, so that it is taken in.`;
    return [entered, { on: answeredOn, who: 'The rule', what }];
  }
  const what =
    standing === 'contested'
      ? `Contests ${name}, which is left out. The reason stands beside the figure.`
      : `Confirms ${name}, which is taken in.`;
  return [entered, { on: answeredOn, who: other, what }];
}

/** "to agree on 53.1". */
function proposedEnding({ ending, value }: RecordedProposal, words: RetestWords): string {
  return ending === 'withdraw' || value === null
    ? `to withdraw the question, so that ${shortly(words.record.first, words)} stands`
    : `to agree on ${shortly(value, words)}`;
}

function borneBy({ bearer }: RecordedProposal, record: RetestRecord): string {
  return bearer === 'split'
    ? 'each side bears half of what the tests cost'
    : `${record[bearer]} bears what the tests cost`;
}

function proposalSteps(proposal: RecordedProposal, words: RetestWords): Step[] {
  const { record } = words;
  const { by, on, reason, answer, answeredOn, answerReason } = proposal;
  const ending = proposedEnding(proposal, words);
  const open = answer === null ? ' This is not answered yet.' : '';
  const proposed = {
    on,
    who: record[by],
    what: `Proposes ${ending}; ${borneBy(proposal, record)}. Its reason: ${quoted(reason)}${open}`,
  };
  if (answer === null || answeredOn === null) return [proposed];
  const why = answerReason === null ? '.' : `: ${quoted(answerReason)}`;
  switch (answer) {
    case 'confirmed':
      return [
        proposed,
        { on: answeredOn, who: record[otherSide(by)], what: `Confirms the proposal ${ending}${why}` },
      ];
    case 'refused':
      return [
        proposed,
        { on: answeredOn, who: record[otherSide(by)], what: `Refuses the proposal ${ending}${why}` },
      ];
    case 'withdrawn':
      return [proposed, { on: answeredOn, who: record[by], what: `Takes back its proposal ${ending}${why}` }];
  }
}

function endingSteps(words: RetestWords): Step[] {
  const { record } = words;
  const { ending } = record;
  if (!ending) return [];
  const who = ending.ending === 'decided' ? 'The rule' : `${record.seller} and ${record.buyer}`;
  return [{ on: ending.on, who, what: endingSentence(ending, words) }];
}
