/**
 * How a question stands on a day: which figures count by then, whose test is called for and until when, or what was
 * decided. Worked out from dated figures and nothing else, so that whoever asks on the same day gets the same answer.
 */
import type { NoReferee } from '../agreement/retest-rules.ts';
import type { LocalDate } from '../dates/local-date.ts';
import { rule } from './decide.ts';
import { meanOf, type RetestFigure, type Tester } from './figures.ts';
import type { Because, LaboratoryMethod, Needs, Ruling } from './ruling.ts';
import { figuresFrom } from './testing.ts';
import { countsUnansweredFrom, daysLater } from './time-limits.ts';

/** By what a question about a laboratory's figure is decided, as it was agreed when it was asked. */
export interface CourseRule {
  readonly method: LaboratoryMethod;
  readonly testDays: number;
  readonly ifNoReferee: NoReferee;
}

/** A figure as it came in, and what the other side said of it. */
export interface EnteredFigure extends RetestFigure {
  readonly enteredOn: LocalDate;
  /** A laboratory's own entry counts at once; a side's once it is confirmed, or nobody has answered for some days. */
  readonly isByLaboratory: boolean;
  readonly answer: { readonly word: 'confirm' | 'contest'; readonly on: LocalDate } | undefined;
}

export interface Asked {
  /** The figure that is questioned. */
  readonly first: RetestFigure;
  readonly askedOn: LocalDate;
  /** In the order in which they were entered. */
  readonly figures: readonly EnteredFigure[];
}

/** Tests are called for. */
export interface CallsFor {
  readonly kind: 'calls-for';
  readonly tests: Needs['tests'];
  readonly since: LocalDate;
  /** The last day on which they can be reported. */
  readonly dueOn: LocalDate;
  /** Figures that wait for the other side's word; while there are any, the time is not over. */
  readonly unanswered: readonly EnteredFigure[];
}

/** It is decided: by the method, or by the time that passed without a test. */
export interface Outcome {
  readonly kind: 'outcome';
  readonly value: RetestFigure['value'];
  readonly from: readonly RetestFigure[];
  readonly because: Because | 'no-test' | 'no-referee';
  /** The day on which it was. */
  readonly on: LocalDate;
}

export type Course = CallsFor | Outcome;

/** How a question stands on `today`. */
export function courseOf(rules: CourseRule, asked: Asked, today: LocalDate): Course {
  const counted: RetestFigure[] = [];
  let ruling = ruleOn(rules, asked, counted);
  let since = asked.askedOn;
  for (const { on, figure } of eventsUntil(asked.figures, today)) {
    if (!figure) {
      // What was contested does not count: its test is called for again, and the time begins anew.
      since = on;
      continue;
    }
    counted.push(figure);
    const wanted = testsWanted(ruling, counted.length - 1);
    ruling = ruleOn(rules, asked, counted);
    if (ruling.kind === 'decided') {
      const { value, from, because } = ruling;
      return { kind: 'outcome', value, from, because, on };
    }
    // A round that was called for before keeps its day; a new one begins.
    if (testsWanted(ruling, counted.length) > wanted) since = on;
  }
  if (ruling.kind === 'decided') throw new Error('A question was decided before anything was tested');
  const unanswered = asked.figures.filter((figure) => standingOf(figure, today) === 'unanswered');
  const dueOn = daysLater(since, rules.testDays);
  if (unanswered.length === 0 && today > dueOn) {
    return lapsed(rules, { asked, counted, tests: ruling.tests, on: daysLater(dueOn, 1) });
  }
  return { kind: 'calls-for', tests: ruling.tests, since, dueOn, unanswered };
}

/** Whether a figure counts on a day, waits for the other side's word, or was contested. */
export function standingOf(figure: EnteredFigure, today: LocalDate): 'counts' | 'unanswered' | 'contested' {
  if (figure.isByLaboratory || figure.answer?.word === 'confirm') return 'counts';
  if (figure.answer) return 'contested';
  return countsUnansweredFrom(figure.enteredOn) <= today ? 'counts' : 'unanswered';
}

function ruleOn({ method }: CourseRule, { first }: Asked, later: readonly RetestFigure[]): Ruling {
  return rule(method, { first, later });
}

/** Tests that were made or are called for. */
function testsWanted(ruling: Ruling, made: number): number {
  return ruling.kind === 'decided'
    ? made
    : made + ruling.tests.reduce((sum, { results }) => sum + results, 0);
}

interface Event {
  readonly on: LocalDate;
  /** It counts from that day; undefined where one was contested. */
  readonly figure: EnteredFigure | undefined;
}

/** In order of day; of one day, as they were entered. */
function eventsUntil(figures: readonly EnteredFigure[], today: LocalDate): readonly Event[] {
  return figures
    .flatMap((figure): Event[] => {
      const standing = standingOf(figure, today);
      if (standing === 'unanswered') return [];
      const { isByLaboratory, answer, enteredOn } = figure;
      const on = isByLaboratory ? enteredOn : (answer?.on ?? countsUnansweredFrom(enteredOn));
      return [{ on, figure: standing === 'counts' ? figure : undefined }];
    })
    .toSorted((a, b) => (a.on < b.on ? -1 : Number(a.on > b.on)));
}

interface Lapsed {
  readonly asked: Asked;
  readonly counted: readonly RetestFigure[];
  readonly tests: Needs['tests'];
  readonly on: LocalDate;
}

/** The first figure stands; where only the referee is missing, the agreed fallback. */
function lapsed({ method, ifNoReferee }: CourseRule, { asked, counted, tests, on }: Lapsed): Outcome {
  const isReferee = tests.every(({ by }) => by === 'referee');
  const judged = isReferee && ifNoReferee === 'mean-of-others' ? toBeJudged(method, { asked, counted }) : [];
  const from = judged.length > 0 ? judged : [asked.first];
  return {
    kind: 'outcome',
    value: meanOf(from.map(({ value }) => value)),
    from,
    because: isReferee ? 'no-referee' : 'no-test',
    on,
  };
}

/** The figures that the referee was to judge: by ASTM D3244 the two retests alone, since the first ones are dropped. */
function toBeJudged(
  { method }: LaboratoryMethod,
  { asked, counted }: Pick<Lapsed, 'asked' | 'counted'>,
): readonly RetestFigure[] {
  const last = (from: Tester) => figuresFrom(counted, from).slice(-1);
  if (method === 'astm-d3244') return [...last('seller'), ...last('buyer')];
  return [asked.first, ...figuresFrom(counted, 'laboratory')];
}
