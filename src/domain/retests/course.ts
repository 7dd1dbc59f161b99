/**
 * How a question stands on a day: which figures count by then, whose test is called for and until when, or what was
 * decided. Worked out from dated figures and nothing else, so that whoever asks on the same day gets the same answer.
 */
import type { LocalDate } from '../dates/local-date.ts';
import type { RetestFigure } from './figures.ts';
import type { Because, Decided, Needs, Ruling } from './ruling.ts';
import { countsUnansweredFrom, daysLater } from './time-limits.ts';

/**
 * A figure as one side entered it, and what the other said of it. It counts once it is confirmed, or nobody has answered for
 * some days.
 */
export interface EnteredFigure extends RetestFigure {
  readonly enteredOn: LocalDate;
  readonly answer: { readonly word: 'confirm' | 'contest'; readonly on: LocalDate } | undefined;
}

/** By what a question is decided, as it was agreed when it was asked. */
export interface CourseRules<Figure extends RetestFigure> {
  /** What the method says of the figures that count so far, oldest first. */
  readonly decide: (counted: readonly Figure[]) => Ruling;
  /** What counts where the referee alone is missing; undefined, and the first stands. */
  readonly withoutReferee: (counted: readonly Figure[]) => Pick<Decided, 'value' | 'from'> | undefined;
  readonly testDays: number;
}

export interface Asked<Figure extends EnteredFigure> {
  /** The figure that is questioned. */
  readonly first: RetestFigure;
  readonly askedOn: LocalDate;
  /** In the order in which they were entered. */
  readonly figures: readonly Figure[];
}

/** Tests are called for. */
export interface CallsFor<Figure> {
  readonly kind: 'calls-for';
  readonly tests: Needs['tests'];
  readonly since: LocalDate;
  /** The last day on which they can be reported. */
  readonly dueOn: LocalDate;
  /** Figures that wait for the other side's word; while there are any, the time is not over. */
  readonly unanswered: readonly Figure[];
}

/** It is decided: by the method, or by the time that passed without a test. */
export interface Outcome {
  readonly kind: 'outcome';
  readonly value: RetestFigure['value'];
  readonly from: readonly RetestFigure[];
  readonly because: DecidedBecause;
  /** The day on which it was. */
  readonly on: LocalDate;
}

/** The step of the method that applied; or no test, or no referee, in time. */
export type DecidedBecause = Because | 'no-test' | 'no-referee';

export type Course<Figure> = CallsFor<Figure> | Outcome;

/** How a question stands on `today`. */
export function courseOf<Figure extends EnteredFigure>(
  rules: CourseRules<Figure>,
  asked: Asked<Figure>,
  today: LocalDate,
): Course<Figure> {
  const counted: Figure[] = [];
  let ruling = rules.decide(counted);
  let since = asked.askedOn;
  let lastOn = asked.askedOn;
  for (const { on, figure, isContested } of eventsUntil(asked.figures, today)) {
    // What was not called for proves nothing, and gives no time.
    if (!isCalledFor(figure, ruling)) continue;
    lastOn = on;
    if (isContested) {
      // What was contested does not count: its test is called for again, and the time begins anew.
      since = on;
      continue;
    }
    const wanted = testsWanted(ruling, counted.length);
    counted.push(figure);
    ruling = rules.decide(counted);
    if (ruling.kind === 'decided') {
      const { value, from, because } = ruling;
      return { kind: 'outcome', value, from, because, on };
    }
    // A round that was called for before keeps its day; a new one begins.
    if (testsWanted(ruling, counted.length) > wanted) since = on;
  }
  if (ruling.kind === 'decided') throw new Error('A question was decided before anything was tested');
  const needs = ruling;
  const unanswered = asked.figures.filter(
    (figure) => figureStanding(figure, today) === 'unanswered' && isCalledFor(figure, needs),
  );
  const dueOn = daysLater(since, rules.testDays);
  if (unanswered.length > 0 || today <= dueOn) {
    return { kind: 'calls-for', tests: ruling.tests, since, dueOn, unanswered };
  }
  const isReferee = ruling.tests.every(({ by }) => by === 'referee');
  const judged = isReferee ? rules.withoutReferee(counted) : undefined;
  return {
    kind: 'outcome',
    ...(judged
      ? { value: judged.value, from: judged.from }
      : { value: asked.first.value, from: [asked.first] }),
    because: isReferee ? 'no-referee' : 'no-test',
    // A figure that waited for an answer past the last day kept it open until then.
    on: laterOf(daysLater(dueOn, 1), lastOn),
  };
}

/** Whether a figure counts on a day, waits for the other side's word, or was contested. */
export function figureStanding(
  { answer, enteredOn }: EnteredFigure,
  today: LocalDate,
): 'counts' | 'unanswered' | 'contested' {
  if (answer) return answer.word === 'confirm' ? 'counts' : 'contested';
  return countsUnansweredFrom(enteredOn) <= today ? 'counts' : 'unanswered';
}

function laterOf(one: LocalDate, other: LocalDate): LocalDate {
  return one > other ? one : other;
}

/** Tests that were made or are called for. */
function testsWanted(ruling: Ruling, made: number): number {
  return ruling.kind === 'decided'
    ? made
    : made + ruling.tests.reduce((sum, { results }) => sum + results, 0);
}

function isCalledFor({ from }: RetestFigure, ruling: Ruling): boolean {
  return ruling.kind === 'needs' && ruling.tests.some(({ by }) => by === from);
}

interface Event<Figure> {
  readonly on: LocalDate;
  readonly figure: Figure;
  /** It does not count from that day on; otherwise it does. */
  readonly isContested: boolean;
}

/** In order of day; of one day, as they were entered. */
function eventsUntil<Figure extends EnteredFigure>(
  figures: readonly Figure[],
  today: LocalDate,
): readonly Event<Figure>[] {
  return figures
    .flatMap((figure): Event<Figure>[] => {
      const standing = figureStanding(figure, today);
      if (standing === 'unanswered') return [];
      const on = figure.answer?.on ?? countsUnansweredFrom(figure.enteredOn);
      return [{ on, figure, isContested: standing === 'contested' }];
    })
    .toSorted((a, b) => (a.on < b.on ? -1 : Number(a.on > b.on)));
}
