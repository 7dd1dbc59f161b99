/**
 * How laboratories and scales that met in retests differ, over all agreements of the caller's party. A meeting is two figures of
 * one sample, or of one load, by two names: the questioned one, and one that tested it again. Contested figures are left out.
 */

import { figuresFor } from '../../documents/figures.ts';
import type { Questioned } from '../../domain/agreement/retest-rules.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import {
  compare,
  decimal,
  decimalPlaces,
  type Exact,
  isNegative,
  isZero,
  negate,
} from '../../domain/numbers/exact.ts';
import { printDecimal, printFixed } from '../../domain/numbers/printing.ts';
import { type PairedT, type Pattern, patternsOf } from '../../domain/retests/patterns.ts';
import { questionedName } from '../../domain/words/retest-course-words.ts';
import { type AgreementRow, readAgreements } from '../../store/rows/agreement-rows.ts';
import { readRetestRows } from '../../store/rows/retest-rows.ts';
import { sideOf } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { Refusal } from '../refusal.ts';
import { meetingsOf, type RetestMeeting } from './meetings.ts';
import { doubtWords, ENOUGH_MEETINGS, patternWords } from './pattern-words.ts';

export interface MeetingView {
  readonly retestId: string;
  readonly agreement: string;
  /** "sample S1", "ticket 1075". */
  readonly subject: string;
  readonly on: LocalDate;
  /** As the reader writes numbers. */
  readonly one: string;
  readonly other: string;
  /** "0.4 more", "1.6 less", "the same": the other's beside the one's. */
  readonly differs: string;
  /** A decimal string: the other's less the one's. */
  readonly difference: string;
}

export interface PatternView {
  readonly about: Questioned;
  /** "Starch", "Net weight". */
  readonly name: string;
  /** Of the figures. */
  readonly unit: string;
  readonly one: string;
  readonly other: string;
  readonly above: number;
  readonly below: number;
  readonly equal: number;
  /** A decimal string: the other's less the one's. */
  readonly mean: string;
  /** What there is to say, in order. */
  readonly sentences: readonly string[];
  /** For whoever checks it; undefined while the meetings are too few. */
  readonly tests: PatternTests | undefined;
  /** The first first. */
  readonly meetings: readonly MeetingView[];
}

/** As the reader writes numbers. */
export interface PatternTests {
  readonly signTest: string | undefined;
  readonly tTest: { readonly t: string; readonly freedom: number; readonly p: string } | undefined;
}

export interface Patterns {
  /** Those that met most often first. */
  readonly patterns: readonly PatternView[];
  /** Retests that make no meeting, since a laboratory or a scale is not named. */
  readonly unnamed: number;
  /** Where one was asked for. */
  readonly agreement: Pick<AgreementRow, 'id' | 'number'> | undefined;
  /** The record's day, to say other days in words. */
  readonly today: string;
}

/** Refuses `not-found` for an agreement that the caller's party is neither seller nor buyer in. */
export async function readPatterns(
  context: Context,
  { agreementId, locale }: { readonly agreementId?: string | undefined; readonly locale: string },
): Promise<Patterns> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const own = (await readAgreements(tx)).filter(
      (row) =>
        sideOf(row, context.caller) !== 'adviser' && (agreementId === undefined || row.id === agreementId),
    );
    if (own.length === 0 && agreementId !== undefined) {
      throw new Refusal('not-found', 'You have no such agreement.');
    }
    const ids = own.map(({ id }) => id);
    const { meetings, unnamed } = await meetingsOf(tx, await readRetestRows(tx, ids));
    const numbers = new Map(own.map(({ id, number }) => [id, number]));
    const { show } = figuresFor(locale);
    return {
      patterns: patternsOf(meetings).map((pattern) => viewOf(pattern, { numbers, show })),
      unnamed,
      agreement: agreementId === undefined ? undefined : own[0],
      today: stamp(context).slice(0, 10),
    };
  });
}

interface Showing {
  readonly numbers: ReadonlyMap<string, string>;
  readonly show: (decimal: string) => string;
}

function viewOf(pattern: Pattern<RetestMeeting>, { numbers, show }: Showing): PatternView {
  const { about, unit, one, other, above, below, equal, mean, differences } = pattern;
  const places = Math.max(...differences.map(({ of }) => of.decimals));
  const said = patternWords(pattern, { show, places });
  const isEnough = differences.length >= ENOUGH_MEETINGS;
  const doubt = isEnough ? doubtWords(pattern) : undefined;
  return {
    about,
    name: questionedName(about),
    unit,
    one,
    other,
    above,
    below,
    equal,
    mean: printDecimal(mean),
    sentences: [said.split, said.chance, ...(doubt === undefined ? [] : [doubt])],
    tests: isEnough ? testsOf(pattern, show) : undefined,
    meetings: differences.map(({ of, oneValue, otherValue, difference }) => ({
      retestId: of.retestId,
      agreement: numbers.get(of.agreementId) ?? '',
      subject: of.subject,
      on: of.on,
      one: show(asWritten(oneValue, places)),
      other: show(asWritten(otherValue, places)),
      differs: differsWords(difference, { places, show }),
      difference: printDecimal(difference),
    })),
  };
}

/** With the decimals that it was reported with; a mean of several that goes on, with one more than theirs. */
function asWritten(value: Exact, places: number): string {
  const own = decimalPlaces(value);
  return own === undefined || own > places ? printDecimal(value, places + 1) : printFixed(value, own);
}

function differsWords(
  difference: Exact,
  { places, show }: { readonly places: number; readonly show: Showing['show'] },
): string {
  if (isZero(difference)) return 'the same';
  const isLess = isNegative(difference);
  return `${show(printFixed(isLess ? negate(difference) : difference, places))} ${isLess ? 'less' : 'more'}`;
}

function testsOf({ signTest, tTest }: Pattern, show: Showing['show']): PatternTests {
  return {
    signTest: signTest && chanceOf(printFixed(signTest, 3), show),
    tTest: tTest && pairedTWords(tTest, show),
  };
}

function pairedTWords({ t, freedom, p }: PairedT, show: Showing['show']): PatternTests['tTest'] {
  return { t: show(t.toFixed(2)), freedom, p: chanceOf(p.toFixed(3), show) };
}

/** "0.031", "below 0.001". */
function chanceOf(p: string, show: Showing['show']): string {
  return compare(decimal(p), decimal('0.001')) < 0 ? `below ${show('0.001')}` : show(p);
}
