/**
 * How a question runs through its rounds, day by day: what is called for and until when, what counts and from when, and
 * what is decided where nobody tests. The figures of the methods themselves are held to their sources in
 * tests/published/retests.test.ts; here it is their days.
 */
import { describe, expect, test } from 'vitest';
import type { DecidingMethod } from '../../../src/domain/agreement/retest-rules.ts';
import { zoneCalendar } from '../../../src/domain/dates/instant.ts';
import { daysLater } from '../../../src/domain/retests/time-limits.ts';
import { day, type Entered, entered, standsOn, told } from './entered-figures.ts';

const REFEREE: DecidingMethod = { method: 'referee-stands', tolerance: '1.0' };
const CLOSEST: DecidingMethod = { method: 'closest-two' };
const MEDIAN: DecidingMethod = { method: 'median' };
const CHEAP: DecidingMethod = { method: 'iso-5725', repeatability: '1.4', test: 'cheap' };
const DEAR: DecidingMethod = { method: 'iso-5725', repeatability: '1.4', test: 'dear' };
const BETWEEN: DecidingMethod = { ...DEAR, reproducibility: '2.8' } as DecidingMethod;
const ASTM: DecidingMethod = { method: 'astm-d3244', reproducibility: '2.0', tie: 'median' };
const SCALE: DecidingMethod = { method: 'second-scale' };

/** Each day of a question with how it stands then. */
type Days = readonly (readonly [today: string, expected: string])[];

describe('every method through its rounds', () => {
  const stories: readonly (readonly [string, DecidingMethod, readonly Entered[], Days])[] = [
    [
      'referee-stands: one round',
      REFEREE,
      [['referee', '55.1', '2026-10-09', 'confirm', '2026-10-11']],
      [
        ['2026-10-01', 'referee 1 from 2026-10-01 to 2026-10-15'],
        ['2026-10-15', '55.1 referee-moved-it 2026-10-11'],
      ],
    ],
    [
      'closest-two: both tests in one round, whoever comes first',
      CLOSEST,
      [
        ['referee', '54.4', '2026-10-05', 'confirm'],
        ['laboratory', '55.2', '2026-10-12', 'confirm', '2026-10-13'],
      ],
      [
        ['2026-10-01', 'laboratory 1, referee 1 from 2026-10-01 to 2026-10-15'],
        ['2026-10-05', 'laboratory 1 from 2026-10-01 to 2026-10-15'],
        ['2026-10-13', '54.2 mean-of-nearer-pair 2026-10-13'],
      ],
    ],
    [
      'median: one of the two is in, and the time of the round goes on',
      MEDIAN,
      [['referee', '54.4', '2026-10-05', 'confirm']],
      [['2026-10-05', 'laboratory 1 from 2026-10-01 to 2026-10-15']],
    ],
    [
      'median: both are in',
      MEDIAN,
      [
        ['referee', '54.4', '2026-10-05', 'confirm'],
        ['laboratory', '55.2', '2026-10-12', 'confirm', '2026-10-13'],
      ],
      [['2026-10-13', '54.4 median 2026-10-13']],
    ],
    [
      'iso-5725, a cheap test: one more, then two more',
      CHEAP,
      [
        ['laboratory', '56.0', '2026-10-06', 'confirm', '2026-10-07'],
        ['laboratory', '54.4', '2026-10-09', 'confirm'],
        ['laboratory', '55.0', '2026-10-10', 'confirm'],
      ],
      // 54.0, 56.0, 54.4 and 55.0 range over 2.0, more than 3.6 s_r = 1.8: the median, 54.7.
      [['2026-10-10', '54.7 median 2026-10-10']],
    ],
    [
      'iso-5725, a cheap test: the second round has days of its own',
      CHEAP,
      [
        ['laboratory', '56.0', '2026-10-06', 'confirm', '2026-10-07'],
        ['laboratory', '54.4', '2026-10-09', 'confirm'],
      ],
      [['2026-10-09', 'laboratory 1 from 2026-10-07 to 2026-10-21']],
    ],
    [
      'iso-5725, a dear test: one more, then one more',
      DEAR,
      [
        ['laboratory', '56.0', '2026-10-06', 'confirm'],
        ['laboratory', '54.5', '2026-10-09', 'confirm'],
      ],
      // Over 2.0, more than 3.3 s_r = 1.65: the median.
      [['2026-10-09', '54.5 median 2026-10-09']],
    ],
    [
      'iso-5725, within r after one more',
      DEAR,
      [['laboratory', '55.4', '2026-10-06', 'confirm']],
      [['2026-10-06', '54.7 mean-of-two 2026-10-06']],
    ],
    [
      'iso-5725 between two laboratories: then the other one, twice',
      BETWEEN,
      [
        ['laboratory', '55.4', '2026-10-06', 'confirm'],
        ['referee', '56.0', '2026-10-15', 'confirm'],
      ],
      [['2026-10-15', 'referee 1 from 2026-10-06 to 2026-10-20']],
    ],
    [
      'iso-5725 between two laboratories: both results of the other one are in',
      BETWEEN,
      [
        ['laboratory', '55.4', '2026-10-06', 'confirm'],
        ['referee', '56.0', '2026-10-15', 'confirm'],
        ['referee', '56.4', '2026-10-16', 'confirm'],
      ],
      // 54.7 and 56.2 lie 1.5 apart, within the critical difference of 2.6192 (published-checks.md, computed).
      [['2026-10-16', '55.45 mean-of-two 2026-10-16']],
    ],
    [
      'astm-d3244: each side, each side again, the referee',
      ASTM,
      [
        ['buyer', '68.9', '2026-10-03', 'confirm', '2026-10-04'],
        ['seller', '71.0', '2026-10-05', 'confirm', '2026-10-06'],
        ['seller', '71.2', '2026-10-16', 'confirm'],
        ['buyer', '69.0', '2026-10-20', 'confirm'],
      ],
      [['2026-10-20', 'referee 1 from 2026-10-20 to 2026-11-03']],
    ],
    [
      'astm-d3244: within R at once',
      ASTM,
      [
        ['buyer', '69.0', '2026-10-03', 'confirm'],
        ['seller', '71.0', '2026-10-05', 'confirm'],
      ],
      [['2026-10-05', '70 mean-of-two 2026-10-05']],
    ],
    [
      'second-scale: one round',
      SCALE,
      [['second-scale', '55000', '2026-10-02', 'confirm']],
      [
        ['2026-10-01', 'second-scale 1 from 2026-10-01 to 2026-10-15'],
        ['2026-10-02', '55000 second-moved-it 2026-10-02'],
      ],
    ],
  ];
  test.each(stories)('%s', (_, method, figures, days) => {
    const first = method === SCALE ? '54000' : '54.0';
    for (const [today, expected] of days) {
      const known = figures.filter(([, , on]) => on <= today).map(entered);
      expect(told(standsOn({ method, first }, known, today)), today).toBe(expected);
    }
  });

  test('astm-d3244, day by day', () => {
    // Section 8.3: 68.9 and 71.0, retests 69.0 and 71.2, referee 70.2: the mean of three is 70.1333….
    const figures: readonly Entered[] = [
      ['buyer', '68.9', '2026-10-03', 'confirm', '2026-10-04'],
      ['seller', '71.0', '2026-10-05', 'confirm', '2026-10-06'],
      ['seller', '71.2', '2026-10-16', 'confirm'],
      ['buyer', '69.0', '2026-10-20', 'confirm'],
      ['referee', '70.2', '2026-11-01', 'confirm', '2026-11-03'],
    ];
    const on = (today: string) =>
      told(
        standsOn(
          { method: ASTM },
          figures.filter(([, , at, , answered = at]) => answered <= today).map(entered),
          today,
        ),
      );
    expect(on('2026-10-02')).toBe('seller 1, buyer 1 from 2026-10-01 to 2026-10-15');
    expect(on('2026-10-04')).toBe('seller 1 from 2026-10-01 to 2026-10-15');
    expect(on('2026-10-06')).toBe('seller 1, buyer 1 from 2026-10-06 to 2026-10-20');
    expect(on('2026-10-16')).toBe('buyer 1 from 2026-10-06 to 2026-10-20');
    expect(on('2026-10-20')).toBe('referee 1 from 2026-10-20 to 2026-11-03');
    expect(on('2026-11-03')).toBe('70.133333 mean-of-three 2026-11-03');
    // Whoever looks later finds the day on which it was decided.
    expect(on('2027-03-01')).toBe('70.133333 mean-of-three 2026-11-03');
  });
});

describe('the time of a round', () => {
  const on = (figures: readonly Entered[], today: string, method: DecidingMethod = REFEREE) =>
    told(standsOn({ method }, figures.filter(([, , at]) => at <= today).map(entered), today));

  test('lasts to the end of its last day, and is over the day after', () => {
    expect(on([], '2026-10-15')).toBe('referee 1 from 2026-10-01 to 2026-10-15');
    expect(on([], '2026-10-16')).toBe('54 no-referee 2026-10-16');
    expect(on([], '2027-01-01')).toBe('54 no-referee 2026-10-16');
    const onTheLast: Entered = ['referee', '55.1', '2026-10-15', 'confirm'];
    expect(on([onTheLast], '2026-10-16')).toBe('55.1 referee-moved-it 2026-10-15');
    expect(told(standsOn({ method: REFEREE, testDays: '1' }, [], '2026-10-02'))).toMatch(/^referee 1/);
    expect(told(standsOn({ method: REFEREE, testDays: '1' }, [], '2026-10-03'))).toBe(
      '54 no-referee 2026-10-03',
    );
  });

  test('is not over while a figure waits for an answer, which counts after five days without one', () => {
    const late: Entered = ['referee', '55.1', '2026-10-15'];
    expect(on([late], '2026-10-15')).toBe('referee 1 from 2026-10-01 to 2026-10-15; 1 unanswered');
    expect(on([late], '2026-10-20')).toBe('referee 1 from 2026-10-01 to 2026-10-15; 1 unanswered');
    expect(on([late], '2026-10-21')).toBe('55.1 referee-moved-it 2026-10-21');
    expect(on([['referee', '55.1', '2026-10-02']], '2026-10-07')).toMatch(/1 unanswered$/);
    expect(on([['referee', '55.1', '2026-10-02']], '2026-10-08')).toBe('55.1 referee-moved-it 2026-10-08');
  });

  test('is over on the day of the answer, where a figure waited for one past the last day', () => {
    const asked = { method: MEDIAN, testDays: '6' };
    const waiting = [entered(['laboratory', '55.2', '2026-10-03'])];
    expect(told(standsOn(asked, waiting, '2026-10-08'))).toMatch(/1 unanswered$/);
    expect(told(standsOn(asked, waiting, '2026-10-09'))).toBe('54 no-referee 2026-10-09');
    const answered = [entered(['laboratory', '55.2', '2026-10-04', 'confirm', '2026-10-08'])];
    expect(told(standsOn(asked, answered, '2026-10-08'))).toBe('54 no-referee 2026-10-08');
    const early = [entered(['laboratory', '55.2', '2026-10-04', 'confirm', '2026-10-05'])];
    expect(told(standsOn(asked, early, '2026-10-09'))).toBe('54 no-referee 2026-10-08');
  });

  test('begins anew on the day on which a figure is contested', () => {
    const wrong: Entered = ['referee', '25.4', '2026-10-13', 'contest', '2026-10-17'];
    expect(on([wrong], '2026-10-17')).toBe('referee 1 from 2026-10-17 to 2026-10-31');
    expect(on([wrong], '2026-10-31')).toBe('referee 1 from 2026-10-17 to 2026-10-31');
    expect(on([wrong], '2026-11-01')).toBe('54 no-referee 2026-11-01');
    const right: Entered = ['referee', '55.1', '2026-10-31', 'confirm'];
    expect(on([wrong, right], '2026-10-31')).toBe('55.1 referee-moved-it 2026-10-31');
  });

  test('a figure that was not called for neither counts nor gives time', () => {
    const sides: readonly Entered[] = [
      ['seller', '58', '2026-10-10', 'confirm'],
      ['buyer', '50', '2026-10-11', 'contest', '2026-10-14'],
      ['laboratory', '57', '2026-10-12'],
    ];
    expect(on(sides, '2026-10-15')).toBe('referee 1 from 2026-10-01 to 2026-10-15');
    expect(on(sides, '2026-10-16')).toBe('54 no-referee 2026-10-16');
    // Nor one that comes before its round: the referee of ASTM D3244 is asked when both have tested twice.
    const early: readonly Entered[] = [
      ['referee', '75', '2026-10-02', 'confirm'],
      ['buyer', '68.9', '2026-10-03', 'confirm'],
      ['seller', '71.0', '2026-10-03', 'confirm'],
      ['buyer', '69.0', '2026-10-04', 'confirm'],
      ['seller', '71.2', '2026-10-04', 'confirm'],
    ];
    expect(on(early, '2026-10-05', ASTM)).toBe('referee 1 from 2026-10-04 to 2026-10-18');
    const other: Entered = ['referee', '54999', '2026-10-02', 'confirm'];
    const weights = [other, ['second-scale', '55000', '2026-10-03', 'confirm'] as const].map(entered);
    expect(told(standsOn({ method: SCALE, first: '54000' }, weights, '2026-10-03'))).toBe(
      '55000 second-moved-it 2026-10-03',
    );
  });
});

describe('where a test does not come', () => {
  const others: Readonly<Record<string, readonly Entered[]>> = {
    laboratory: [['laboratory', '55.2', '2026-10-05', 'confirm']],
    apart: [
      ['laboratory', '56.0', '2026-10-05', 'confirm'],
      ['laboratory', '54.5', '2026-10-05', 'confirm'],
    ],
    oneOfTwo: [
      ['laboratory', '55.0', '2026-10-05', 'confirm'],
      ['referee', '59', '2026-10-06', 'confirm'],
    ],
    sides: [
      ['seller', '56.0', '2026-10-05', 'confirm'],
      ['buyer', '52.0', '2026-10-05', 'confirm'],
      ['seller', '55.5', '2026-10-06', 'confirm'],
      ['buyer', '53.0', '2026-10-06', 'confirm'],
    ],
    seller: [['seller', '56.0', '2026-10-05', 'confirm']],
    referee: [['referee', '56.0', '2026-10-05', 'confirm']],
    none: [],
  };
  test.each([
    // Which figures are in; what counts by `first-stands`, and by `mean-of-others`.
    ['referee-stands', REFEREE, 'none', '54 no-referee 2026-10-16', '54 no-referee 2026-10-16'],
    ['closest-two', CLOSEST, 'laboratory', '54 no-referee 2026-10-16', '54.6 no-referee 2026-10-16'],
    ['median', MEDIAN, 'laboratory', '54 no-referee 2026-10-16', '54.6 no-referee 2026-10-16'],
    // What the laboratory's own check came to, the median of 54.0, 56.0 and 54.5; and nothing of half a referee's test.
    ['iso-5725', BETWEEN, 'apart', '54 no-referee 2026-10-20', '54.5 no-referee 2026-10-20'],
    ['iso-5725', BETWEEN, 'oneOfTwo', '54 no-referee 2026-10-20', '54.5 no-referee 2026-10-20'],
    // The retests of both sides; the first ones were dropped.
    ['astm-d3244', ASTM, 'sides', '54 no-referee 2026-10-21', '54.25 no-referee 2026-10-21'],
    // Where more than the referee is missing, nothing was done to judge the first figure by.
    ['closest-two', CLOSEST, 'none', '54 no-test 2026-10-16', '54 no-test 2026-10-16'],
    ['median', MEDIAN, 'referee', '54 no-test 2026-10-16', '54 no-test 2026-10-16'],
    ['iso-5725', CHEAP, 'none', '54 no-test 2026-10-16', '54 no-test 2026-10-16'],
    ['astm-d3244', ASTM, 'seller', '54 no-test 2026-10-16', '54 no-test 2026-10-16'],
    ['second-scale', SCALE, 'none', '54 no-test 2026-10-16', '54 no-test 2026-10-16'],
  ] as const)('%s %o, %s: %s or %s', (_, method, which, first, mean) => {
    const figures = (others[which] ?? []).map(entered);
    for (const [ifNoReferee, expected] of [
      ['first-stands', first],
      ['mean-of-others', mean],
    ] as const) {
      const found = told(standsOn({ method, ifNoReferee }, figures, '2026-12-01'));
      expect(found).toBe(expected);
      // On the day before it was decided, it was not.
      const eve = daysLater(day(expected.slice(-10)), -1);
      expect(told(standsOn({ method, ifNoReferee }, figures, eve))).toMatch(/ to \d{4}-\d{2}-\d{2}$/);
    }
  });
});

/**
 * Clocks in Idaho go forward on the second Sunday in March and back on the first in November, at two in the morning: 8 March
 * and 1 November 2026 (15 U.S.C. 260a, from memory). Arizona does not change them (from memory).
 */
describe('days are the local ones, whatever the clocks do', () => {
  test.each([
    // Asked a few days before, due on the day of the change itself.
    ['America/Boise', 'forward', '2026-03-05T20:00:00-07:00', '3', '2026-03-08T23:59:59.999-06:00'],
    ['America/Boise', 'back', '2026-10-25T20:00:00-06:00', '7', '2026-11-01T23:59:59.999-07:00'],
    ['America/Phoenix', 'in March', '2026-03-05T20:00:00-07:00', '3', '2026-03-08T23:59:59.999-07:00'],
    ['America/Phoenix', 'in November', '2026-10-25T20:00:00-07:00', '7', '2026-11-01T23:59:59.999-07:00'],
    // And across it.
    ['America/Boise', 'over March', '2026-03-01T00:00:00-07:00', '14', '2026-03-15T23:59:59.999-06:00'],
    [
      'America/Boise',
      'over November',
      '2026-10-31T23:59:59.999-06:00',
      '14',
      '2026-11-14T23:59:59.999-07:00',
    ],
  ])('%s, %s: asked at %s, %s days last to %s', (zone, _, askedAt, testDays, lastMoment) => {
    const { dateAt } = zoneCalendar(zone);
    const last = Date.parse(lastMoment);
    const asked = { method: REFEREE, testDays, askedOn: dateAt(Date.parse(askedAt)) };
    expect(told(standsOn(asked, [], dateAt(last)))).toMatch(/^referee 1/);
    expect(told(standsOn(asked, [], dateAt(last + 1)))).toMatch(/^54 no-referee/);
  });

  test.each([
    ['America/Boise', '2026-03-08T00:00:00-07:00'],
    ['America/Boise', '2026-03-09T00:00:00-06:00'],
    ['America/Boise', '2026-11-01T00:00:00-06:00'],
    ['America/Boise', '2026-11-02T00:00:00-07:00'],
    ['America/Phoenix', '2026-11-02T00:00:00-07:00'],
  ])('%s: a question of just before the midnight of %s is a day older', (zone, midnight) => {
    const { dateAt } = zoneCalendar(zone);
    const dueOf = (instant: number) => {
      const askedOn = dateAt(instant);
      const course = standsOn({ method: REFEREE, askedOn }, [], askedOn);
      return course.kind === 'calls-for' ? course.dueOn : '';
    };
    const after = midnight.slice(0, 10);
    expect(dueOf(Date.parse(midnight))).toBe(daysLater(day(after), 14));
    expect(dueOf(Date.parse(midnight) - 1)).toBe(daysLater(day(after), 13));
  });

  test('an hour that comes twice, or never, is of one day', () => {
    const { dateAt } = zoneCalendar('America/Boise');
    const hours = ['2026-11-01T01:30:00-06:00', '2026-11-01T01:30:00-07:00', '2026-11-01T00:00:00-06:00'];
    expect(new Set(hours.map((hour) => dateAt(Date.parse(hour))))).toEqual(new Set(['2026-11-01']));
    const around = ['2026-03-08T01:59:59-07:00', '2026-03-08T03:00:00-06:00'];
    expect(new Set(around.map((hour) => dateAt(Date.parse(hour))))).toEqual(new Set(['2026-03-08']));
  });
});
