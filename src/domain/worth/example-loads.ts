/**
 * Five loads on which a formula is shown: from a lot's own tests where it has any, else what such feed usually tests.
 * Each has a figure for every measure, so that no formula lacks one; what was not tested is named as assumed.
 */
import type { Feed, Tested } from '../agreement/measures.ts';
import { TESTED } from '../agreement/measures.ts';
import { add, compare, divide, type Exact, negate, whole, ZERO } from '../numbers/exact.ts';
import { roundTo } from '../numbers/rounding.ts';
import { completeFigures, moveFigures } from './plausible-figures.ts';
import type { TrialFigures } from './try-out.ts';
import { usualFeed } from './usual-figures.ts';

export interface ExampleLoad {
  /** Like "A wet load with more husk" or "The mean of the 3 tests". */
  readonly label: string;
  /** Every measure that a result can hold; constituents in percent of dry matter. */
  readonly figures: TrialFigures;
  readonly net: Exact;
  readonly unit: 'lb' | 'kg';
  /** Measures that no test of the lot gave: usual figures of the feed stand for them. */
  readonly assumed: readonly Tested[];
}

export interface ExampleSource {
  readonly feed: Feed;
  /** The lot's own tests, constituents in percent of dry matter; may be empty. */
  readonly tests: readonly TrialFigures[];
  readonly unit: ExampleLoad['unit'];
}

/** Net weight of an ordinary truckload (common practice, no source). */
export const USUAL_NET: Readonly<Record<ExampleLoad['unit'], Exact>> = {
  lb: whole(48_000),
  kg: whole(22_000),
};

/** How many examples there always are. */
const EXAMPLES = 5;
/** Decimals of a mean of tests. */
const MEAN_PLACES = 2;

interface Labelled {
  readonly label: string;
  /** What tests gave, before anything was filled in. */
  readonly tested: TrialFigures;
  readonly figures: TrialFigures;
}

const UNTESTED: TrialFigures = new Map();

function labelled(feed: Feed, label: string) {
  return (tested: TrialFigures): Labelled => ({ label, tested, figures: completeFigures(feed, tested) });
}

/**
 * Always five loads. Without tests: a usual one, and the four corners of wet or dry with less or more starch. With
 * one test: it, and loads moved from it. With two or three: each, their plain mean, and loads moved from the mean.
 * With more: the mean, the wettest, the driest, and those with the most and the least starch.
 */
export function exampleLoads({ feed, tests, unit }: ExampleSource): readonly ExampleLoad[] {
  // The feed's own five come last: tests that can hardly be true may leave too few that differ.
  const chosen = unlike([...examplesFrom(feed, tests), ...examplesFrom(feed, [])]);
  return chosen.slice(0, EXAMPLES).map(({ label, tested, figures }) => ({
    label,
    figures,
    net: USUAL_NET[unit],
    unit,
    assumed: TESTED.filter((measure) => !tested.has(measure)),
  }));
}

function examplesFrom(feed: Feed, tests: readonly TrialFigures[]): Labelled[] {
  return [...fromTests(feed, tests), ...movedFrom(feed, centreOf(feed, tests))];
}

/** The load that others are moved from. */
function centreOf(feed: Feed, tests: readonly TrialFigures[]): Labelled {
  const name = tests.length === 0 ? USUAL : tests.length === 1 ? 'the test' : 'the mean';
  return labelled(feed, name)(tests.length === 0 ? UNTESTED : meanOf(tests));
}

const USUAL = 'the usual';

function fromTests(feed: Feed, tests: readonly TrialFigures[]): Labelled[] {
  const [only] = tests;
  if (!only) return [labelled(feed, 'A usual load')(UNTESTED)];
  if (tests.length === 1) return [labelled(feed, 'As tested')(only)];
  const mean = labelled(feed, `The mean of the ${tests.length} tests`)(meanOf(tests));
  const each = tests.map((test, index) => labelled(feed, `Test ${index + 1}`)(test));
  if (tests.length <= 3) return [...each, mean];
  return [
    mean,
    { ...extreme(each, { measure: 'dry-matter', way: -1 }), label: 'The wettest test' },
    { ...extreme(each, { measure: 'dry-matter', way: 1 }), label: 'The driest test' },
    { ...extreme(each, { measure: 'starch', way: 1 }), label: 'The test with the most starch' },
    { ...extreme(each, { measure: 'starch', way: -1 }), label: 'The test with the least starch' },
  ];
}

function movedFrom(feed: Feed, { label, tested, figures }: Labelled): Labelled[] {
  const { step, poor, rich } = usualFeed(feed);
  const { dryMatter, starch } = step;
  const corners = [
    { wet: true, rich: false },
    { wet: false, rich: true },
    { wet: true, rich: true },
    { wet: false, rich: false },
  ];
  return corners.map((corner) => ({
    label:
      label === USUAL
        ? `A ${corner.wet ? 'wet' : 'dry'} load with ${corner.rich ? rich : poor}`
        : `${corner.wet ? 'Wetter' : 'Drier'} than ${label}, with ${corner.rich ? rich : poor}`,
    tested,
    figures: moveFigures(figures, {
      dryMatter: corner.wet ? negate(dryMatter) : dryMatter,
      starch: corner.rich ? starch : negate(starch),
    }),
  }));
}

/** The plain mean of each measure over the tests that have it, to 2 decimals. */
function meanOf(tests: readonly TrialFigures[]): TrialFigures {
  return new Map(
    TESTED.flatMap((measure): [Tested, Exact][] => {
      const known = tests.flatMap((test) => test.get(measure) ?? []);
      if (known.length === 0) return [];
      const mean = divide(known.reduce(add, ZERO), whole(known.length));
      return [[measure, roundTo(mean, MEAN_PLACES, 'half-up')]];
    }),
  );
}

/** The test with the most (1) or the least (−1) of a measure; of equals the first. */
function extreme(
  tests: readonly Labelled[],
  { measure, way }: { readonly measure: Tested; readonly way: 1 | -1 },
): Labelled {
  return tests.reduce((best, test) =>
    compare(test.figures.get(measure) ?? ZERO, best.figures.get(measure) ?? ZERO) === way ? test : best,
  );
}

/** Each set of figures once, under its first label. */
function unlike(loads: readonly Labelled[]): Labelled[] {
  return loads.filter(
    ({ figures }, index) => !loads.slice(0, index).some((earlier) => sameFigures(earlier.figures, figures)),
  );
}

function sameFigures(one: TrialFigures, other: TrialFigures): boolean {
  return TESTED.every((measure) => compare(one.get(measure) ?? ZERO, other.get(measure) ?? ZERO) === 0);
}
