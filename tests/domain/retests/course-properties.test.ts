/**
 * What holds for the course of any question, by whichever method. A failing seed is in the message.
 */
import { expect, test } from 'vitest';
import type { DecidingMethod } from '../../../src/domain/agreement/retest-rules.ts';
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import { compare, type Exact } from '../../../src/domain/numbers/exact.ts';
import type { CaseFigure } from '../../../src/domain/retests/asked-rule.ts';
import { figureStanding, type Outcome } from '../../../src/domain/retests/course.ts';
import { decidedFigure } from '../../../src/domain/retests/decide.ts';
import { TESTERS, type Tester } from '../../../src/domain/retests/figures.ts';
import { daysLater } from '../../../src/domain/retests/time-limits.ts';
import { type Chance, chanceFrom } from '../../oracle/random.ts';
import { day, entered, type Questioned, reported, standsOn } from './entered-figures.ts';

const SEEDS = Array.from({ length: 2000 }, (_, index) => index + 1);
/** A course is over by then: at most three rounds of 20 days, each contested a few times. */
const LONGEST_DAYS = 400;

/** A method with limits of the size of what the figures lie apart. */
function methodOf(chance: Chance): DecidingMethod {
  const limit = () => (chance.integer(1, 6) / 10).toFixed(1);
  const repeatability = limit();
  const test = chance.pick(['cheap', 'dear'] as const);
  const iso = { method: 'iso-5725', repeatability, test } as const;
  const reproducibility = (Number(repeatability) + chance.integer(0, 10) / 10).toFixed(1);
  return chance.pick<DecidingMethod>([
    { method: 'referee-stands', tolerance: limit() },
    { method: 'closest-two' },
    { method: 'median' },
    iso,
    { ...iso, reproducibility },
    {
      method: 'astm-d3244',
      reproducibility: limit(),
      tie: chance.pick(['median', 'mean', 'first-stands', 'referee-stands']),
    },
    { method: 'second-scale' },
    { method: 'second-scale', toleranceDivisions: String(chance.integer(0, 30)) },
  ]);
}

/** Near 54 % with one or two decimals; of a weight, whole divisions near 54,000 lb. */
function drawnValue(chance: Chance, method: DecidingMethod): string {
  if (method.method === 'second-scale') return String(54_000 + 20 * chance.integer(-40, 40));
  // Often whole tenths close together, so that ties come about.
  return chance.happens(0.9)
    ? (chance.integer(535, 545) / 10).toFixed(1)
    : (chance.integer(5200, 5600) / 100).toFixed(2);
}

function questionOf(chance: Chance): Required<Questioned> {
  const method = methodOf(chance);
  return {
    method,
    first: drawnValue(chance, method),
    ifNoReferee: chance.pick(['first-stands', 'mean-of-others']),
    testDays: String(chance.integer(1, 20)),
    askedOn: '2026-10-01',
  };
}

interface Played {
  readonly question: Required<Questioned>;
  readonly figures: readonly CaseFigure[];
  readonly outcome: Outcome;
}

/** Plays a question day by day: what is called for comes or does not, and is confirmed, contested or left without a word. */
function play(chance: Chance, { isPrompt }: { readonly isPrompt: boolean }): Played {
  const question = questionOf(chance);
  const figures: CaseFigure[] = [];
  let today = day(question.askedOn);
  for (let count = 0; count < LONGEST_DAYS; count++, today = daysLater(today, 1)) {
    const course = standsOn(question, figures, today);
    if (course.kind === 'outcome') return { question, figures, outcome: course };
    for (const { by, results } of course.tests) {
      const waiting = course.unanswered.filter(({ from }) => from === by).length;
      for (let missing = results - waiting; missing > 0; missing--) {
        if (!isPrompt && !chance.happens(0.3)) continue;
        const value = drawnValue(chance, question.method);
        figures.push(entered([by, value, today, ...answerTo(chance, { today, isPrompt })]));
      }
    }
  }
  throw new Error('Nothing was decided');
}

function answerTo(
  chance: Chance,
  { today, isPrompt }: { readonly today: LocalDate; readonly isPrompt: boolean },
): readonly [] | readonly ['confirm' | 'contest', string] {
  if (isPrompt) return ['confirm', today];
  if (chance.happens(0.3)) return [];
  return [chance.happens(0.8) ? 'confirm' : 'contest', daysLater(today, chance.integer(0, 5))];
}

const within = (value: Exact, figures: readonly { readonly value: Exact }[]) =>
  figures.some((one) => compare(one.value, value) <= 0) &&
  figures.some((one) => compare(one.value, value) >= 0);

test('every question comes to a figure within the range of those that count, the first among them', () => {
  const how = new Set<string>();
  for (const seed of SEEDS) {
    const { question, figures, outcome } = play(chanceFrom(seed), { isPrompt: seed % 2 === 0 });
    const counted = figures.filter((figure) => figureStanding(figure, outcome.on) === 'counts');
    const all = [reported('laboratory', question.first), ...counted];
    expect(within(outcome.value, all), `seed ${seed}`).toBe(true);
    expect(within(decidedFigure(outcome, 'half-even'), all), `seed ${seed}`).toBe(true);
    how.add(outcome.because);
  }
  // Each way to end was met.
  expect([...how].sort()).toEqual(
    [
      ...[
        'first-stands',
        'referee-moved-it',
        'mean-of-two',
        'mean-of-three',
        'mean-of-four',
        'median',
        'tie',
      ],
      ...['mean-of-nearer-pair', 'second-moved-it', 'no-test', 'no-referee'],
    ].sort(),
  );
});

test('the order in which figures of one round are entered on a day changes nothing', () => {
  let moved = 0;
  for (const seed of SEEDS) {
    const chance = chanceFrom(seed);
    const { question, figures, outcome } = play(chance, { isPrompt: true });
    const rounds = [...new Set(figures.map(({ enteredOn }) => enteredOn))];
    const other = rounds.flatMap((on) =>
      chance.shuffled(figures.filter(({ enteredOn }) => enteredOn === on)),
    );
    if (other.some((figure, index) => figure !== figures[index])) moved++;
    const again = standsOn(question, other, outcome.on);
    expect(again, `seed ${seed}`).toMatchObject({
      value: outcome.value,
      because: outcome.because,
      on: outcome.on,
    });
  }
  expect(moved).toBeGreaterThan(50);
});

test('a figure that is not called for changes no decision, whenever it comes and whatever is said of it', () => {
  for (const seed of SEEDS) {
    const chance = chanceFrom(seed);
    const { question, figures, outcome } = play(chance, { isPrompt: false });
    const more = Array.from({ length: chance.integer(1, 4) }, () => uncalled(chance, { question, outcome }));
    const all = [...figures, ...more].toSorted((a, b) =>
      a.enteredOn < b.enteredOn ? -1 : Number(a.enteredOn > b.enteredOn),
    );
    expect(standsOn(question, all, daysLater(outcome.on, 60)), `seed ${seed}`).toMatchObject({
      ...{ kind: 'outcome', value: outcome.value, because: outcome.because, on: outcome.on },
    });
  }
});

/** By somebody whom the method never asks, on any day; or by anybody, once the method has decided. */
function uncalled(chance: Chance, { question, outcome }: Omit<Played, 'figures'>): CaseFigure {
  // Nobody reports to a question whose time is over: that is refused before it comes here.
  const isLate = !['no-test', 'no-referee'].includes(outcome.because) && chance.happens(0.5);
  const from = chance.pick(isLate ? TESTERS : strangersTo(question.method));
  const today = isLate ? daysLater(outcome.on, 1) : daysLater(day(question.askedOn), chance.integer(0, 30));
  const answer = answerTo(chance, { today, isPrompt: false });
  return entered([from, drawnValue(chance, question.method), today, ...answer]);
}

function strangersTo({ method, ...of }: DecidingMethod): readonly Tester[] {
  const asked: Readonly<Record<DecidingMethod['method'], readonly Tester[]>> = {
    'referee-stands': ['referee'],
    'closest-two': ['laboratory', 'referee'],
    median: ['laboratory', 'referee'],
    'iso-5725': 'reproducibility' in of ? ['laboratory', 'referee'] : ['laboratory'],
    'astm-d3244': ['seller', 'buyer', 'referee'],
    'second-scale': ['second-scale'],
  };
  return TESTERS.filter((tester) => !asked[method].includes(tester));
}
