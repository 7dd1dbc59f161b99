/**
 * Lots in sentences: how one stands, what it was tested, how far it is, what waits.
 */
import { FEEDS, type Feed, MEASURE_NAMES, type Tested } from '../../domain/agreement/measures.ts';
import type { LotSummary } from '../../usecases/lots/lot-summary.ts';
import type { WorthView } from '../../usecases/lots/lot-worth.ts';
import type { LotWaiting } from '../../usecases/lots/lots-waiting.ts';
import { opening } from '../place/sentence.ts';

export function lotName({ number, seller, isOwn }: Pick<LotSummary, 'number' | 'seller' | 'isOwn'>): string {
  return isOwn ? `Your lot ${number}` : `Lot ${number} of ${seller}`;
}

/** Words before colour. */
export function standingWords({ standing, until, heldUntil, audience, isOwn }: LotSummary): string {
  switch (standing) {
    case 'draft':
      return 'a draft: nobody else sees it';
    case 'posted':
      return `open for offers until ${until}${audience === 'invited' ? ', for invited parties' : ''}`;
    case 'under-offer':
      return isOwn
        ? `under offer until ${heldUntil}: one side has signed an offer`
        : `under offer until ${heldUntil}: one side has signed; offers may still be made`;
    case 'over':
      return `its last day, ${until}, is over`;
    case 'withdrawn':
      return 'withdrawn';
    case 'sold':
      return 'sold';
  }
}

/** "Mean of 2 tests: 59.5 % dry matter; 57 % starch and 24.5 % NDF in the dry matter" */
export function testWords({ tests, dryMatter, starch, ndf, moisture }: LotSummary): string {
  if (tests === 0) return `No test yet; ${moisture} moisture expected`;
  const parts = [
    starch.isTested ? `${starch.shown} % starch` : 'starch not tested',
    ndf.isTested ? `${ndf.shown} % NDF` : 'NDF not tested',
  ];
  const head = tests === 1 ? 'One test' : `Mean of ${tests} tests`;
  return `${head}: ${dryMatter.shown} % dry matter; in it ${parts.join(' and ')}`;
}

/** "34 miles as the crow flies" */
export function distanceWords({ distance, isOwn }: LotSummary): string | undefined {
  if (isOwn) return undefined;
  if (!distance) return 'distance not known';
  return `${distance.shown} ${distance.kind === 'road' ? 'by road' : 'as the crow flies; roads are longer'}`;
}

/** What of a price rests on no test. */
export function untestedWords({ tests, starch, ndf, dryMatter }: LotSummary): string | undefined {
  const assumed = [
    ...(dryMatter.isTested ? [] : [`dry matter of ${dryMatter.shown} % is the seller’s expectation`]),
    ...(starch.isTested ? [] : [`starch of ${starch.shown} %`]),
    ...(ndf.isTested ? [] : [`NDF of ${ndf.shown} %`]),
  ];
  if (assumed.length === 0) return undefined;
  if (tests === 0) {
    return `Not tested: ${dryMatter.shown} % dry matter is the middle of what is expected; ${starch.shown} % starch and ${ndf.shown} % NDF are usual for such feed.`;
  }
  return `Not tested, usual for such feed: ${assumed.join(' and ')}.`;
}

/** Whose haulage is in a price. */
export function haulWords({ hauledBy, seller, ton, worth }: LotSummary): string {
  if (hauledBy === 'seller') return `hauled by ${seller}`;
  if (worth.status !== 'priced') return 'the buyer hauls';
  if (worth.haul !== undefined) return `delivered: ${worth.haul} a ${ton} of it is your haulage`;
  const lacks = worth.haulLacks.map((lack) => (lack === 'rate' ? 'your rate' : 'the distance')).join(' and ');
  return `fetched from ${seller}: your haulage is not counted, since ${lacks} ${worth.haulLacks.length > 1 ? 'are' : 'is'} not known`;
}

/** Why there is no price. */
export function unpricedWords(worth: Exclude<WorthView, { readonly status: 'priced' }>): string {
  if (worth.status === 'impossible') return `No price for such feed: ${worth.why}.`;
  const quotes = worth.quotes.map((quote) => `a price for ${quote}`);
  const lacks = [...quotes, ...(worth.distance ? ['the distance'] : [])];
  return `Not priced yet: it needs ${lacks.join(' and ')}.`;
}

/** "Starch", "pH" */
export function measureTitle(measure: Tested): string {
  return measure === 'ph' ? MEASURE_NAMES.ph : opening(MEASURE_NAMES[measure]);
}

/** "whole-ear corn (…)", with its first letter large: every feed says which parts of the ear it holds. */
export function feedTitle(feed: Feed): string {
  return opening(FEEDS[feed]);
}

export interface WaitingSentence {
  readonly text: string;
  readonly to: string;
  readonly act: string;
}

export function waitingSentence(waiting: LotWaiting): WaitingSentence {
  const to = `/lots/${waiting.lotId}`;
  switch (waiting.kind) {
    case 'answer': {
      const { offerIds, isOwn, number, seller } = waiting;
      const [first] = offerIds;
      const on = isOwn ? `your lot ${number}` : `lot ${number} of ${seller}`;
      return offerIds.length === 1
        ? { text: `An offer on ${on} waits for your answer.`, to: `/offers/${first}`, act: 'Read it' }
        : {
            text: `${offerIds.length} offers on ${on} wait for your answer; you see them beside one another.`,
            to: '/offers',
            act: 'Read them',
          };
    }
    case 'draft':
      return {
        text: `Your lot ${waiting.number} is a draft; nobody else sees it until you post it.`,
        to,
        act: 'Finish it',
      };
    case 'over':
      return {
        text: `The last day of your lot ${waiting.number} is over; nobody can make an offer. Give it a later one, or withdraw it.`,
        to,
        act: 'Look at it',
      };
  }
}
