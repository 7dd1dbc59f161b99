/**
 * What a season came to, fact by fact, in the words of the closing page and of the closing statement's paper.
 */
import { RULE_NAMES } from '../../domain/season-close/agreed-rules.ts';
import type { ClosingStatement } from '../../domain/season-close/closing-statement.ts';
import { type PointWords, pointInWords } from '../../domain/season-close/open-points.ts';
import { differenceInWords } from '../../domain/words/season-note-words.ts';
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
  const { loads, money, questions, journal, seller, buyer } = statement;
  /** A minus sign is easily overlooked: what goes the other way is said. */
  const amount = (figure: string, otherWay: string) => {
    const size = wordsOf(statement, figures).money(unsigned(figure));
    return signOf(figure) < 0 ? `${size} ${otherWay}` : size;
  };
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
    ofMoney('The loads came to', amount(money.settled, `in favour of ${buyer}`)),
    // Before what was invoiced, which holds the notes for it: after that it would be counted again.
    ...adjustmentFacts(statement, figures).map(([name, value]) => ofMoney(name, value)),
    ofMoney('Invoiced, with notes, fees and advances', amount(money.invoiced, `in favour of ${buyer}`)),
    ...(money.discounts === undefined
      ? []
      : [ofMoney('Taken off for paying early', amount(money.discounts, 'given back'))]),
    ofMoney('Paid', amount(money.paid, `by ${seller}`)),
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

/** What each agreed rule for the season comes to, and how much of it is on no note. */
function adjustmentFacts(statement: ClosingStatement, figures: Figures): [string, string][] {
  return (statement.adjustments ?? []).map(({ rule, amount, issued }) => {
    if (amount === null) return [RULE_NAMES[rule], 'cannot be worked out yet'];
    const isIssued = amount === issued;
    const notes = isIssued ? '' : `, on notes: ${owingWords(issued, statement, figures)}`;
    return [RULE_NAMES[rule], `${owingWords(amount, statement, figures)}${notes}`];
  });
}

/** How each agreed rule for the season comes to that, in the words that are signed; none where none is agreed on. */
export function adjustmentSentences({ adjustments = [] }: ClosingStatement): readonly string[] {
  return adjustments.map(({ rule, words }) => `${RULE_NAMES[rule]}: ${words}`);
}

function balanceWords(statement: ClosingStatement, figures: Figures): string {
  return owingWords(statement.money.balance, statement, figures);
}

/** Above zero the buyer owes. */
function owingWords(amount: string, statement: ClosingStatement, figures: Figures): string {
  const { seller, buyer } = statement;
  const sign = signOf(amount);
  if (sign === 0) return 'nothing';
  const owed = wordsOf(statement, figures).money(unsigned(amount));
  return `${sign > 0 ? buyer : seller} owes ${owed}`;
}

/** "2 loads have not settled; Tarn Hollow Dairy owes 1,111.11 USD."; undefined where nothing is carried over. */
export function carriedSentence(statement: ClosingStatement, figures: Figures): string | undefined {
  const { carried } = statement;
  if (carried.length === 0) return undefined;
  const words = wordsOf(statement, figures);
  const points = carried.map(({ kind, count, amount }) =>
    pointInWords({ kind, count: Number(count), amount }, words),
  );
  return `${points.join('; ')}.`;
}

/** One sentence for each difference that both leave standing. */
export function differenceSentences(statement: ClosingStatement, figures: Figures): readonly string[] {
  const words = wordsOf(statement, figures);
  return (statement.differences ?? []).map(
    (difference) => `${differenceInWords(difference, words)} “${difference.words}”`,
  );
}

/** What stands over it, once there is something to sign. */
export function carriedTitle(standing: Exclude<CloseStanding, 'now'>): string {
  return standing === 'sealed' ? 'Carried over' : 'Carried over by signing';
}
