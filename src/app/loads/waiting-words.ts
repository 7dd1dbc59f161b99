/**
 * What waits, in sentences; and what settling did.
 */
import type { WaitingGroup } from '../../usecases/loads/read-waiting.ts';
import { opening } from '../place/sentence.ts';

const FIGURES = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
];

function counted(count: number, what: string): string {
  return `${FIGURES[count] ?? count} ${what}${count === 1 ? '' : 's'}`;
}

function age(group: WaitingGroup): string {
  const { loads, days } = group;
  const since = days === 0 ? 'came within the last day' : `has waited ${counted(days, 'day')}`;
  return loads === 1 ? `It ${since}.` : `The oldest ${since}.`;
}

/**
 * "Six loads wait for results from the laboratory. The oldest has waited four days." With `isOneOfMany` it says under
 * which agreement.
 */
export function waitingWords(group: WaitingGroup, isOneOfMany: boolean): string {
  const { loads, agreementNumber, partner } = group;
  const under = isOneOfMany ? ` under ${agreementNumber} with ${partner}` : '';
  const subject = opening(`${counted(loads, 'load')}${under}`);
  const [wait, have, are] = loads === 1 ? ['waits', 'has', 'is'] : ['wait', 'have', 'are'];
  return `${subject} ${told()} ${age(group)}`;

  function told(): string {
    switch (group.what) {
      case 'ready':
        return `${have} all that ${loads === 1 ? 'it needs' : 'they need'} and can be settled.`;
      case 'no-result':
        return `${wait} for results from the laboratory.`;
      case 'choice-needed':
        return group.yours
          ? `${are} outside the agreed ranges: you accept or refuse ${loads === 1 ? 'it' : 'each'}.`
          : `${are} outside the agreed ranges: ${partner} accepts or refuses ${loads === 1 ? 'it' : 'each'}.`;
      case 'refusal-contested':
        return `${loads === 1 ? 'was' : 'were'} refused, but the figures lie within the agreed ranges: ${group.yours ? 'you' : partner} can still accept ${loads === 1 ? 'it' : 'them'}, or the two sides agree what to do.`;
      case 'no-quote':
        return `${wait} for a price to be recorded.`;
      case 'not-elected':
        return group.yours
          ? `${wait} for you to name a pricing date.`
          : `${wait} for ${partner} to name a pricing date.`;
      case 'month-open':
        return `${wait} for the month’s average price, which stands once a price of a later month is recorded.`;
      case 'outside-table':
        return `${are} outside the agreed moisture table: the agreement must say what ${loads === 1 ? 'it is' : 'they are'} worth.`;
    }
  }
}

/** What can be done about it, and where; undefined where only time or talking helps. */
export function waitingStep(
  group: WaitingGroup,
):
  | { readonly verb: 'record-result' | 'record-quote' | 'read'; readonly label: string; readonly to: string }
  | undefined {
  const { agreementId, loads } = group;
  switch (group.what) {
    case 'no-result':
      return { verb: 'record-result', label: 'Enter results', to: `/results/new?agreement=${agreementId}` };
    case 'no-quote':
    case 'month-open':
      return { verb: 'record-quote', label: 'Record a price', to: `/prices/new?agreement=${agreementId}` };
    case 'choice-needed':
    case 'not-elected':
    case 'refusal-contested':
    case 'outside-table':
      return {
        verb: 'read',
        label: loads === 1 ? 'See it' : 'See them',
        to: loads === 1 ? `/loads/${group.oldestId}` : `/loads?status=waiting&agreement=${agreementId}`,
      };
    case 'ready':
      return undefined;
  }
}

/** What came of settling. */
export function settledWords(done: {
  readonly settled: number;
  readonly refused: number;
  readonly waiting: number;
}): string {
  const { settled, refused, waiting } = done;
  const parts = [
    settled === 0 && refused === 0 ? 'Nothing was ready to settle.' : '',
    settled === 0 ? '' : opening(`${counted(settled, 'load')} settled.`),
    refused === 0
      ? ''
      : opening(
          `${counted(refused, 'load')} closed as refused: nothing is owed for ${refused === 1 ? 'it' : 'them'}.`,
        ),
    waiting === 0 ? '' : opening(`${counted(waiting, 'load')} still ${waiting === 1 ? 'waits' : 'wait'}.`),
  ];
  return parts.filter((part) => part !== '').join(' ');
}
