/**
 * Schedules and acceptance ranges by chance, near the feed's plausible figures, and the marks they set:
 * the figures at which a load's treatment changes, which samples are then made to hit exactly.
 */
import { drawn, type Profile } from './feed-profiles.ts';
import type { Chance } from './random.ts';
import { decimalText, hundredthsText, type Money, perShortTon, rateText } from './random-figures.ts';
import type { Acceptance, Agreement, Extent, Measure, ScheduleTerm, Step } from './season.ts';

type Setting = { chance: Chance; money: Money; profile: Profile };
type Kind = { label: string } & ({ unit: 'percent' } | ({ unit: 'money' } & Extent));

const common = ['starch', 'ndf', 'moisture', 'dry-matter'] as const;
const rare = [
  'adf',
  'crude-protein',
  'crude-fat',
  'ash',
  'ph',
  'ammonia-nitrogen',
  'particle-size',
  'aflatoxin',
  'vomitoxin',
] as const;

function pickMeasure(chance: Chance): Measure {
  return chance.happens(0.7) ? chance.pick(common) : chance.pick(rare);
}

function stepsOf({ chance, money }: Setting, kind: Kind, span: number): Step[] {
  const count = chance.integer(1, 3);
  const open = chance.happens(0.6);
  return Array.from({ length: count }, (_, index) => {
    const sign = chance.happens(0.7) ? -1 : 1;
    // A whole span outside the range costs a few dollars a ton, or some percent.
    const size = (chance.integer(1, 40) * 25) / span;
    const perPoint =
      kind.unit === 'percent'
        ? decimalText(sign * Math.max(1, Math.round(size * 200)), 2)
        : span > 10_000
          ? money.text(sign * size * perShortTon[kind.per], 3)
          : rateText(chance, money, sign * size, kind.per);
    if (open && index === count - 1) return { perPoint };
    const points = Math.max(50, Math.round((span * chance.pick([0.1, 0.2, 0.3])) / 50) * 50);
    return { points: hundredthsText(chance, points), perPoint };
  });
}

export function generateSchedule(setting: Setting, kind: Kind): ScheduleTerm {
  const { chance, profile } = setting;
  const on = pickMeasure(chance);
  const [low, high] = profile[on];
  const span = high - low;
  const from = chance.happens(0.2) ? 0 : Math.round((low + span * chance.pick([0.2, 0.4, 0.5])) / 50) * 50;
  const width = chance.pick([0, 0.2, 0.4]) * span;
  const to = Math.max(from, Math.round((from === 0 ? low + width : from + width) / 50) * 50);
  const neutral = { from: hundredthsText(chance, from), to: hundredthsText(chance, to) };
  const sides = chance.pick(['above', 'below', 'both'] as const);
  const count = chance.pick(['exact', 'completed', 'started'] as const);
  return {
    term: 'schedule',
    on,
    neutral,
    ...(sides === 'below' ? {} : { above: stepsOf(setting, kind, span) }),
    ...(sides === 'above' ? {} : { below: stepsOf(setting, kind, span) }),
    count,
    ...kind,
  };
}

export function generateAcceptance({ chance, profile }: Setting): Acceptance[] {
  return Array.from({ length: chance.integer(1, 2) }, () => {
    const on = pickMeasure(chance);
    const [low, high] = profile[on];
    const below = drawn(chance, [low, low + Math.round((high - low) * 0.3)]);
    const above = drawn(chance, [low + Math.round((high - low) * 0.7), high]);
    const range: Acceptance = { on };
    const ends = chance.pick(['below', 'above', 'both', 'both'] as const);
    if (ends !== 'above') range.below = hundredthsText(chance, below);
    if (ends !== 'below') range.above = hundredthsText(chance, above);
    return range;
  });
}

export type Marks = ReadonlyMap<Measure, number[]>;

function hundredths(text: string): number {
  return Math.round(Number(text) * 100);
}

/** Figures in hundredths, by measure; those of moisture are turned into dry matter. */
export function marksOf(agreement: Agreement): Marks {
  const marks = new Map<Measure, number[]>();
  const mark = (measure: Measure, value: number): void => {
    const [of, at] = measure === 'moisture' ? (['dry-matter', 10_000 - value] as const) : [measure, value];
    marks.set(of, [...(marks.get(of) ?? []), at]);
  };
  for (const range of agreement.acceptance ?? [])
    for (const end of [range.below, range.above]) if (end !== undefined) mark(range.on, hundredths(end));
  for (const term of agreement.price) {
    if (term.term === 'equivalent-bushels' && term.method.kind === 'table')
      for (const row of term.method.rows) mark('moisture', hundredths(row.moisture));
    if (term.term !== 'schedule') continue;
    for (const [side, start, sign] of [
      [term.above, term.neutral.to, 1],
      [term.below, term.neutral.from, -1],
    ] as const) {
      let at = hundredths(start);
      mark(term.on, at);
      for (const step of side ?? []) {
        at += sign * hundredths(step.points ?? '1');
        mark(term.on, at);
      }
    }
  }
  return marks;
}
