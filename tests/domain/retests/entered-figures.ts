/**
 * Questions for tests of their course: dated figures, short to write, and what became of them in a few words.
 */
import type { DecidingMethod } from '../../../src/domain/agreement/retest-rules.ts';
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import { add, decimal } from '../../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../../src/domain/numbers/printing.ts';
import { type AskedRule, type CaseFigure, courseRules } from '../../../src/domain/retests/asked-rule.ts';
import { type Course, courseOf } from '../../../src/domain/retests/course.ts';
import { decimalsWritten, type RetestFigure, type Tester } from '../../../src/domain/retests/figures.ts';
import type { WeighedTwice } from '../../../src/domain/retests/weights.ts';

export const day = (text: string) => text as LocalDate;

/** Who tested, what came out, the day on which it was entered, and what the other side said of it and when. */
export type Entered = readonly [
  from: Tester,
  value: string,
  on: string,
  word?: 'confirm' | 'contest',
  answeredOn?: string,
];

export interface Questioned {
  readonly method: DecidingMethod;
  readonly ifNoReferee?: AskedRule['ifNoReferee'];
  readonly testDays?: string;
  readonly askedOn?: string;
  readonly first?: string;
}

/** As it is reported, with its own decimals. */
export function reported(from: Tester, value: string): RetestFigure {
  return { from, value: decimal(value), decimals: decimalsWritten(value) };
}

/** Weighed on a class III L scale of 20 lb division, with a tare of 30,000 lb. */
export function weighedAt(net: string): WeighedTwice {
  const scale = { accuracyClass: 'III L', division: decimal('20'), unit: 'lb' } as const;
  const tare = decimal('30000');
  return { gross: add(decimal(net), tare), tare, unit: 'lb', grossScale: scale, tareScale: scale };
}

export function entered([from, value, on, word, answeredOn = on]: Entered): CaseFigure {
  return {
    ...reported(from, value),
    enteredOn: day(on),
    answer: word && { word, on: day(answeredOn) },
    weighed: from === 'second-scale' ? weighedAt(value) : undefined,
  };
}

/** How a question stands on a day; asked on 2026-10-01 about 54.0, with 14 days for each round. */
export function standsOn(
  {
    method,
    ifNoReferee = 'first-stands',
    testDays = '14',
    askedOn = '2026-10-01',
    first = '54.0',
  }: Questioned,
  figures: readonly CaseFigure[],
  today: string,
): Course<CaseFigure> {
  const of = { method, ifNoReferee, testDays, fee: 'split', referee: null, rounding: 'half-up' } as const;
  const weighed = method.method === 'second-scale' ? weighedAt(first) : undefined;
  const rules = courseRules(of, { first: reported('laboratory', first), weighed });
  return courseOf(
    rules,
    { first: reported('laboratory', first), askedOn: day(askedOn), figures },
    day(today),
  );
}

/** "referee 1 from 2026-10-01 to 2026-10-15", with what waits for an answer; or "55.1 referee-moved-it 2026-10-09". */
export function told(course: Course<CaseFigure>): string {
  if (course.kind === 'outcome') return `${printDecimal(course.value)} ${course.because} ${course.on}`;
  const tests = course.tests.map(({ by, results }) => `${by} ${results}`).join(', ');
  const waiting = course.unanswered.length === 0 ? '' : `; ${course.unanswered.length} unanswered`;
  return `${tests} from ${course.since} to ${course.dueOn}${waiting}`;
}
