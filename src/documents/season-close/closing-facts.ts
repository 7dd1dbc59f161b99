/**
 * What a season came to, fact by fact, in the words of the closing page and of the closing statement's paper.
 */
import type { ClosingStatement } from '../../domain/season-close/closing-statement.ts';
import { type PointWords, pointInWords } from '../../domain/season-close/open-points.ts';
import { signOf, unsigned } from '../amount-strings.ts';
import type { Figures } from '../figures.ts';

/** Whether the figures are of now, drawn up to be signed, or sealed. */
export type CloseStanding = 'now' | 'drawn up' | 'sealed';

export interface ClosingFact {
  readonly about: 'loads' | 'money' | 'questions' | 'journal';
  readonly name: string;
  readonly value: string;
  /** A count of nothing, which a page may leave out. */
  readonly isNone: boolean;
}

/** How what came stands against what was committed, with its tolerance. */
const STANDING_WORDS: Readonly<Record<NonNullable<ClosingStatement['committed']>['standing'], string>> = {
  under: 'less than agreed',
  within: 'as agreed',
  over: 'more than agreed',
};

/** Other weights stand as they were signed. */
const WEIGHT_WORDS: Readonly<Record<string, string>> = { 'dry-matter': 'of dry matter' };

/** How the statement's parties and amounts are written for a reader. */
export function wordsOf({ seller, buyer, currency }: ClosingStatement, figures: Figures): PointWords {
  return { seller, buyer, money: (amount) => `${figures.show(amount)} ${currency}` };
}

/** All of it, in the order in which it is read. */
export function closingFacts(statement: ClosingStatement, figures: Figures): readonly ClosingFact[] {
  const { loads, money, questions, journal } = statement;
  const amount = wordsOf(statement, figures).money;
  const counted =
    (about: ClosingFact['about']) =>
    (name: string, count: string): ClosingFact => ({
      ...{ about, name, value: figures.show(count) },
      isNone: count === '0',
    });
  const said =
    (about: ClosingFact['about']) =>
    (name: string, value: string): ClosingFact => ({ about, name, value, isNone: false });
  const [ofLoads, ofMoney, ofQuestions] = [counted('loads'), said('money'), counted('questions')];
  return [
    said('loads')('Loads settled', figures.show(loads.settled)),
    ofLoads('Loads refused', loads.refused),
    ofLoads('Loads not settled', loads.unsettled),
    ofLoads('Tickets voided', loads.void),
    ...committedFacts(statement, figures).map(([name, value]) => said('loads')(name, value)),
    ofMoney('The loads came to', amount(money.settled)),
    ofMoney('Invoiced, notes and fees included', amount(money.invoiced)),
    ofMoney('Paid', amount(money.paid)),
    ofMoney('Left at the close', balanceWords(statement, figures)),
    ofQuestions('Questions decided', questions.decided),
    ofQuestions('Questions withdrawn', questions.withdrawn),
    ofQuestions('Questions agreed by both sides', questions.agreed),
    said('journal')('Entries of the journal', figures.show(journal.entries)),
  ];
}

function committedFacts({ committed }: ClosingStatement, figures: Figures): [string, string][] {
  if (!committed) return [];
  const { amount, unit, weight, tolerancePercent, delivered, standing } = committed;
  const units = `${unit.replaceAll('-', ' ')}s ${WEIGHT_WORDS[weight] ?? weight}`;
  const tolerance = tolerancePercent === null ? '' : `, ± ${figures.show(tolerancePercent)} %`;
  return [
    ['Committed', `${figures.show(amount)} ${units}${tolerance}`],
    ['Delivered of it', `${figures.show(delivered)} ${units}, ${STANDING_WORDS[standing]}`],
  ];
}

function balanceWords(statement: ClosingStatement, figures: Figures): string {
  const { money, seller, buyer } = statement;
  const sign = signOf(money.balance);
  if (sign === 0) return 'nothing';
  const owed = wordsOf(statement, figures).money(unsigned(money.balance));
  return `${sign > 0 ? buyer : seller} owes ${owed}`;
}

/** "Carried over by signing: One load has not settled."; undefined where nothing is. */
export function carriedSentence(
  statement: ClosingStatement,
  figures: Figures,
  isSealed: boolean,
): string | undefined {
  const { carried } = statement;
  if (carried.length === 0) return undefined;
  const words = wordsOf(statement, figures);
  const points = carried.map(({ kind, count, amount }) =>
    pointInWords({ kind, count: Number(count), amount }, words),
  );
  return `${isSealed ? 'Carried over' : 'Carried over by signing'}: ${points.join('; ')}.`;
}
