/**
 * A question in words: who must do what next, and what was decided by which step.
 */

import { MEASURE_NAMES, type Tested } from '../agreement/measures.ts';
import type { Side } from '../retests/costs.ts';
import type { DecidedBecause } from '../retests/course.ts';
import type { Tester } from '../retests/figures.ts';
import type { Needs } from '../retests/ruling.ts';
import { listed } from './figures-in-words.ts';
import type { Parties } from './parties.ts';

export interface CourseNames extends Parties {
  /** The laboratory whose figure is questioned; null where the report does not say. */
  readonly laboratory: string | null;
  readonly referee: string | null;
}

/** Who tests, by name: "the referee, Bell Reach Referees". */
export function testerName(tester: Tester, names: CourseNames): string {
  switch (tester) {
    case 'laboratory':
      return names.laboratory ?? 'the laboratory that tested first';
    case 'referee':
      return names.referee === null ? 'the referee' : `the referee, ${names.referee}`;
    case 'seller':
      return `the laboratory of ${names.seller}`;
    case 'buyer':
      return `the laboratory of ${names.buyer}`;
    case 'second-scale':
      return 'a second scale';
  }
}

/** What is called for, one sentence a test, without the day. */
export function callsInWords(tests: Needs['tests'], names: CourseNames): readonly string[] {
  return tests.map((test) => callInWords(test, names));
}

function callInWords({ by, results }: Needs['tests'][number], names: CourseNames): string {
  const times = results === 1 ? '' : results === 2 ? ' twice' : ` ${results} times`;
  switch (by) {
    case 'laboratory':
      return `${opened(testerName(by, names))} tests its sealed part again${times}.`;
    case 'referee':
      return `The referee${names.referee === null ? '' : `, ${names.referee},`} tests its sealed part${times}.`;
    case 'seller':
      return `${names.seller} has its own sealed part tested${times}.`;
    case 'buyer':
      return `${names.buyer} has its own sealed part tested${times}.`;
    case 'second-scale':
      return 'The truck is weighed on a second scale that is legal for trade, full and empty.';
  }
}

/** By which step it was decided. */
export function becauseInWords(because: DecidedBecause | 'both-confirmed', isWeight: boolean): string {
  switch (because) {
    case 'first-stands':
      return isWeight
        ? 'The two net weights lie within what the scales may be off by, so the first stands.'
        : 'The referee’s figure lies within the tolerance, so the first stands.';
    case 'second-moved-it':
      return 'The two net weights lie further apart than the scales may be off by, so the second counts.';
    case 'referee-moved-it':
      return 'The referee’s figure differs by more than was agreed, so it counts.';
    case 'mean-of-two':
      return 'The two figures lie within the limit, so their mean counts.';
    case 'mean-of-three':
      return 'The three figures lie within the limit, so their mean counts.';
    case 'mean-of-four':
      return 'The four figures lie within the limit, so their mean counts.';
    case 'mean-of-nearer-pair':
      return 'The mean of the two figures that are nearest to each other counts.';
    case 'median':
      return 'The middle figure counts.';
    case 'tie':
      return 'Both pairs are equally near, so the agreement’s own rule for that case applies.';
    case 'no-test':
      return 'No test was reported in time, so the first figure stands.';
    case 'no-referee':
      return 'The referee reported nothing in time, so the agreed fallback applies.';
    case 'both-confirmed':
      return 'Both sides confirmed it.';
  }
}

/** Who bears the tests. */
export function bearerInWords(bearer: Side | 'split', { seller, buyer }: Parties): string {
  return bearer === 'split' ? 'half each' : bearer === 'seller' ? seller : buyer;
}

/** The parts that a method tests, as their holders are called: "the laboratory’s and the referee’s part". */
export function partsInWords(parts: readonly string[]): string {
  return `${listed(parts.map((part) => `the ${part}’s`))} part`;
}

function opened(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}

/** "Starch", "Net weight": what is questioned, at the head of a sentence. */
export function questionedName(about: string): string {
  if (about === 'weight') return 'Net weight';
  const name = MEASURE_NAMES[about as Tested];
  return about === 'ph' ? name : opened(name);
}
