/**
 * The sentences that say how a question stands, what counts, and what it did to the money.
 */

import { otherSide } from '../../domain/retests/costs.ts';
import type { RecordedEnding, RecordedFigure, RetestRecord } from '../../domain/retests/retest-record.ts';
import { signOf, sumOf } from '../amount-strings.ts';
import { moneyText, type RetestWords, SIDES, shortly, subjectInside, withUnit } from './retest-setting.ts';

export type State = 'Open' | 'Decided' | 'Withdrawn' | 'Agreed';

/** How the question stands, in one word. */
export function stateOf({ ending }: RetestRecord): State {
  switch (ending?.ending) {
    case undefined:
      return 'Open';
    case 'decided':
      return 'Decided';
    case 'withdrawn':
      return 'Withdrawn';
    case 'agreed':
      return 'Agreed';
  }
}

/** Who questions what, what was reported, and what the asker makes of it. */
export function questionSentence(words: RetestWords): string {
  const { record } = words;
  const by =
    record.sample === null
      ? 'on its ticket'
      : `by ${record.firstReport?.laboratory ?? 'a laboratory that is not named'}`;
  return `${record[record.asker]} questions the ${subjectInside(record)}. It was reported as ${withUnit(record.first, words)} ${by}; ${record[record.asker]} makes it ${shortly(record.claimed, words)}.`;
}

/** What counts, and since when. */
export function endingSentence({ ending, value, inWords }: RecordedEnding, words: RetestWords): string {
  const { first } = words.record;
  const counts = isSame(value, first)
    ? `${withUnit(first, words)}, as first reported, stands.`
    : `${withUnit(value, words)} counts in place of ${shortly(first, words)}.`;
  switch (ending) {
    case 'decided':
      return `Decided by the agreed rule: ${counts} ${inWords}`;
    case 'withdrawn':
      return `Withdrawn: ${counts} ${inWords}`;
    case 'agreed':
      return `Agreed: ${counts} ${inWords}`;
  }
}

function isSame(one: string, other: string): boolean {
  const plain = (text: string) => (text.includes('.') ? text.replace(/0+$/, '').replace(/\.$/, '') : text);
  return plain(one) === plain(other);
}

/** What all loads came to before, or come to now; undefined where one of them has no price then. */
export function totalOf({ loads }: RetestRecord, when: 'before' | 'now'): string | undefined {
  const amounts = loads.flatMap((load) => load[when] ?? []);
  return amounts.length === loads.length && amounts.length > 0 ? sumOf(amounts) : undefined;
}

/** Who owes how much more or less by the ending. */
export function changeSentence({ changed }: RecordedEnding, words: RetestWords): string {
  const { seller, buyer } = words.record;
  const sign = signOf(changed);
  if (sign === 0) return `It changes nothing of what ${buyer} owes ${seller} for the feed.`;
  return `By it ${buyer} owes ${seller} ${moneyText(changed, words)} ${sign > 0 ? 'more' : 'less'} for the feed.`;
}

/** What the tests cost and who bears it; what was contested costs nothing. */
export function costSentence({ sellerBears, buyerBears }: RecordedEnding, words: RetestWords): string {
  const { record } = words;
  const total = sumOf([sellerBears, buyerBears]);
  if (signOf(total) === 0) return 'No test has cost anything.';
  const bears = { seller: sellerBears, buyer: buyerBears };
  const alone = SIDES.find((side) => signOf(bears[otherSide(side)]) === 0);
  const cost = `The tests cost ${moneyText(total, words)}`;
  if (alone) return `${cost}; ${record[alone]} bears all of it.`;
  return `${cost}; ${record.seller} bears ${moneyText(sellerBears, words)} and ${record.buyer} ${moneyText(buyerBears, words)}.`;
}

/** What is called for and by when, while it is open; a figure that waits; or why the rule could not be carried out. */
export function openSentences(words: RetestWords): readonly string[] {
  const { record } = words;
  const { calls, obstacle } = record;
  return [
    ...(obstacle === undefined ? [] : [obstacle]),
    ...(calls
      ? [
          `Called for since ${calls.since}, to be reported by ${calls.dueOn}: ${calls.sentences.join(' ')}`,
          ...record.figures.flatMap((figure) => waitingSentence(figure, words) ?? []),
        ]
      : []),
    ...record.proposals
      .filter(({ answer }) => answer === null)
      .map(({ by }) => `A proposal of ${record[by]} to end it waits for ${record[otherSide(by)]}.`),
  ];
}

function waitingSentence(figure: RecordedFigure, words: RetestWords): string | undefined {
  const { standing, value, testedBy, by, answeredOn } = figure;
  if (standing !== 'unanswered') return undefined;
  const other = words.record[otherSide(by)];
  return `Reported already: ${shortly(value, words)} by ${testedBy}, which waits for ${other}. Without a word from ${other} the rule takes it in from ${answeredOn ?? 'a later day'} on.`;
}

/** What is held of invoices; undefined where nothing is. */
export function heldSentence(words: RetestWords): string | undefined {
  const { held } = words.record;
  if (signOf(held) === 0) return undefined;
  return `${moneyText(held, words)} of invoices is held for this question: open, and not due until it ends.`;
}
