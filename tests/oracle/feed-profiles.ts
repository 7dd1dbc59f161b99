/**
 * Plausible ranges of every measure for each feed, in hundredths of the measure's unit:
 * percent of dry matter for constituents. Figures are drawn from them, and terms are set near them.
 */
import type { Chance } from './random.ts';
import type { Feed, Measure } from './season.ts';

export type Range = readonly [low: number, high: number];
export type Profile = Record<Measure, Range>;

const common = {
  'crude-protein': [600, 1000],
  'crude-fat': [200, 450],
  ash: [100, 500],
  ph: [360, 480],
  'ammonia-nitrogen': [100, 1200],
  'particle-size': [60_000, 260_000],
  aflatoxin: [0, 3000],
  vomitoxin: [0, 400],
} as const;

function profile(wet: Range, starch: Range, ndf: Range): Profile {
  return {
    ...common,
    'dry-matter': wet,
    moisture: [10_000 - wet[1], 10_000 - wet[0]],
    starch,
    ndf,
    adf: [Math.round(ndf[0] / 4), Math.round(ndf[1] / 2)],
  };
}

export const profiles: Record<Feed, Profile> = {
  'whole-ear-corn': profile([5000, 6500], [4400, 5800], [1800, 3400]),
  'high-moisture-ear-corn': profile([5800, 7200], [5400, 6500], [1200, 2200]),
  'high-moisture-shelled-corn': profile([6600, 7900], [6600, 7300], [800, 1300]),
  'corn-silage': profile([2800, 4200], [2200, 4000], [3400, 5000]),
  'dry-shelled-corn': profile([8000, 9000], [6800, 7500], [800, 1200]),
};

export const feeds = Object.keys(profiles) as Feed[];

export function drawn(chance: Chance, [low, high]: Range): number {
  const step = chance.happens(0.5) ? 1 : chance.pick([5, 10, 50]);
  return Math.round(chance.integer(low, high) / step) * step;
}
