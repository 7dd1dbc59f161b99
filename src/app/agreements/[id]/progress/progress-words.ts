/**
 * Words of the progress page.
 */
import type { CommittedView } from '../../../../usecases/agreements/progress-view.ts';
import type { WaitingGroup } from '../../../../usecases/loads/read-waiting.ts';

export const TON_WORDS = { 'short-ton': 'short tons', tonne: 'tonnes' } as const;

const WAITS: Readonly<Partial<Record<WaitingGroup['what'], string>>> = {
  'no-result': 'for a result',
  'choice-needed': 'for the buyer’s choice',
  'refusal-contested': 'with a refusal that is disputed',
  'no-quote': 'for a price',
  'not-elected': 'for a pricing date',
  'month-open': 'for the month’s end',
  'outside-table': 'outside the agreed table',
};

/** "Six loads wait for a result, on your side; the oldest has waited four days." */
export function waitingSentence({ what, loads, days, yours, partner }: WaitingGroup): string {
  const many = loads === 1 ? 'One load' : `${loads} loads`;
  const age = days === 0 ? 'since today' : days === 1 ? 'for a day' : `for ${days} days`;
  if (what === 'ready') return `${many} ${loads === 1 ? 'is' : 'are'} ready to settle, ${age}.`;
  const who = yours
    ? 'Your side can end it'
    : what === 'month-open'
      ? 'It ends by itself'
      : `It is for ${partner}`;
  return `${many} ${loads === 1 ? 'waits' : 'wait'} ${WAITS[what] ?? 'for something'}, ${age}. ${who}.`;
}

/** "90.00 of 100 short tons as fed, 90.0 %. Within what was promised …" */
export function committedSentence(committed: CommittedView): string {
  const { amount, unit, weight, tolerancePercent, delivered, least, most, standing, remaining, isBeyond } =
    committed;
  const tons = `${TON_WORDS[unit]} ${weight === 'as-fed' ? 'as fed' : 'of dry matter'}`;
  const range =
    tolerancePercent === undefined
      ? ''
      : ` The promise is kept from ${least} to ${most}, ${tolerancePercent} % either way.`;
  const end = isBeyond ? `${remaining} more than the amount.` : `${remaining} to come until the amount.`;
  const standings = {
    under: 'Less than promised so far:',
    within: 'Within what was promised:',
    over: 'More than was promised:',
  };
  return `${standings[standing]} ${delivered} of ${amount} ${tons}, ${committed.percent} %. ${end}${range}`;
}
