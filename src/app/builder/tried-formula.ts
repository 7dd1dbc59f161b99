/**
 * What the panel shows of one formula or two: prices over starch and dry matter and on five loads, by the same quotes
 * and the same feed. The figures are those of the settlement itself; this only chooses what is looked at.
 */
import type { Agreement } from '../../domain/agreement/document.ts';
import { TESTED, type Tested } from '../../domain/agreement/measures.ts';
import { readerUnits } from '../../domain/agreement/reader-units.ts';
import {
  add,
  ceiling,
  compare,
  decimal,
  divide,
  type Exact,
  HUNDRED,
  parseDecimal,
  subtract,
  whole,
} from '../../domain/numbers/exact.ts';
import { assumedQuotes } from '../../domain/worth/assumed-quotes.ts';
import { type ExampleLoad, exampleLoads } from '../../domain/worth/example-loads.ts';
import { type PricedExample, priceExamples } from '../../domain/worth/price-examples.ts';
import { type CurvePoint, priceCurve } from '../../domain/worth/price-grid.ts';
import { type Haul, haulFor } from '../../domain/worth/trial-haul.ts';
import type { TrialFigures } from '../../domain/worth/try-out.ts';
import { usualFeed } from '../../domain/worth/usual-figures.ts';

export interface Trial {
  readonly before: Agreement | undefined;
  readonly after: Agreement;
  /** A lot's tests as the page has them: figures by measure, constituents in percent of dry matter. */
  readonly lotTests: readonly Readonly<Record<string, string>>[];
  /** Quotes that somebody typed, by reference. */
  readonly quotes: ReadonlyMap<string, string>;
  readonly distance: Haul | undefined;
}

export interface PricedLoads {
  readonly loads: readonly ExampleLoad[];
  readonly after: readonly PricedExample[];
  readonly before: readonly PricedExample[] | undefined;
}

export interface TriedFormula {
  /** One for each reference that follows quotes, in either version. */
  readonly quotes: ReadonlyMap<string, string>;
  readonly curve: {
    readonly after: readonly CurvePoint[];
    readonly before: readonly CurvePoint[] | undefined;
  };
  readonly grid: readonly GridRow[];
  readonly examples: PricedLoads;
}

export interface GridRow {
  readonly dryMatter: Exact;
  readonly after: readonly CurvePoint[];
  readonly before: readonly CurvePoint[] | undefined;
}

/** Steps of the grid along one side. */
const GRID_STEPS = whole(4);
const HALF_POINT: Exact = { n: 1n, d: 2n };

export function tryFormula({ before, after, lotTests, quotes, distance }: Trial): TriedFormula {
  const assumed = assumedQuotes(after, quotes);
  const all = new Map([
    ...(before ? assumedQuotes(before, new Map([...quotes, ...assumed])) : []),
    ...assumed,
  ]);
  const { weight: unit } = readerUnits(after);
  const loads = exampleLoads({ feed: after.feed, tests: trialTests(lotTests), unit });
  const [centre] = loads;
  const figures: TrialFigures = centre?.figures ?? new Map();
  const { range } = usualFeed(after.feed);
  const curveOf = (agreement: Agreement, at: TrialFigures, step: Exact) =>
    priceCurve(agreement, {
      figures: at,
      starch: { from: range.starch.low, to: range.starch.high, step },
      fibre: 'gives-way',
      quotes: all,
      load: { net: centre?.net ?? HUNDRED, unit, distance: haulFor(agreement, distance) },
    });
  const both = (at: TrialFigures, step: Exact) => ({
    after: curveOf(after, at, step),
    before: before && curveOf(before, at, step),
  });
  const examples = { loads, quotes: all, distance };
  return {
    quotes: all,
    curve: both(figures, HALF_POINT),
    grid: stepsWithin(range['dry-matter']).map((dryMatter) => ({
      dryMatter,
      ...both(new Map(figures).set('dry-matter', dryMatter), wholeStep(range.starch)),
    })),
    examples: {
      loads,
      after: priceExamples(after, examples),
      before: before && priceExamples(before, examples),
    },
  };
}

interface Range {
  readonly low: Exact;
  readonly high: Exact;
}

/** Whole points, few enough for a table: 14 points are walked by 4. */
function wholeStep({ low, high }: Range): Exact {
  return whole(ceiling(divide(subtract(high, low), GRID_STEPS)));
}

function stepsWithin(range: Range): readonly Exact[] {
  const steps: Exact[] = [];
  for (let at = range.low; compare(at, range.high) <= 0; at = add(at, wholeStep(range))) steps.push(at);
  return steps;
}

/** A lot's figures as exact ones; what is no figure or no measure is left out, moisture is told as dry matter. */
export function trialTests(tests: Trial['lotTests']): readonly TrialFigures[] {
  return tests
    .map((test): TrialFigures => {
      const known = TESTED.flatMap((measure): [Tested, Exact][] => {
        const figure = parseDecimal(test[measure] ?? '');
        return figure ? [[measure, figure]] : [];
      });
      const moisture = parseDecimal(test['moisture'] ?? '');
      const dryMatter: [Tested, Exact][] = moisture ? [['dry-matter', subtract(HUNDRED, moisture)]] : [];
      return new Map([...dryMatter, ...known]);
    })
    .filter((test) => test.size > 0);
}

/** Whether a typed text can be a quote: a number of 0 or more. */
export function isQuote(text: string): boolean {
  const figure = parseDecimal(text);
  return figure !== undefined && compare(figure, decimal('0')) >= 0;
}
