/**
 * Laboratory results by chance: in both bases, with figures that hit the agreement's marks exactly, with
 * cells missing, and never such as the input rules refuse.
 */
import { drawn, type Profile, type Range } from './feed-profiles.ts';
import type { Marks } from './generate-schedule.ts';
import type { Chance } from './random.ts';
import { decimalText, hundredthsText } from './random-figures.ts';
import {
  type Agreement,
  constituents,
  otherMeasures,
  type Part,
  type SampleRow,
  sampleColumns,
  type TestedMeasure,
} from './season.ts';

export type Laboratory = {
  chance: Chance;
  agreement: Agreement;
  profile: Profile;
  marks: Marks;
  /** Measures that the laboratory reports; a cell may still be empty. */
  reported: ReadonlySet<TestedMeasure>;
};

type Drawn = Map<TestedMeasure, number>;

function figure({ chance, profile, marks }: Laboratory, measure: TestedMeasure): number {
  const near = marks.get(measure);
  const range: Range = profile[measure];
  if (near === undefined || near.length === 0 || chance.happens(0.7)) return drawn(chance, range);
  const mark = chance.pick(near) + chance.pick([0, 0, 0, 0, 1, -1]);
  return Math.max(measure === 'dry-matter' ? 1000 : 0, mark);
}

/** Share of dry matter that a part may reach once `tests` has rounded it, from above. */
function mostOf(agreement: Agreement, figures: Drawn, part: Part, grainStarch: number): number {
  const measure = part === 'grain-equivalent' ? 'starch' : part;
  const value = figures.get(measure);
  if (value === undefined) return 0;
  const decimals = agreement.tests?.[measure]?.decimals;
  const margin = decimals === undefined || value % 100 === 0 ? 0 : 0.5 / 10 ** Number(decimals);
  const percent = value / 100 + margin;
  return part === 'grain-equivalent' ? Math.min(1, percent / grainStarch) : percent / 100;
}

function isPossible(agreement: Agreement, figures: Drawn): boolean {
  const starch = figures.get('starch') ?? 0;
  const ndf = figures.get('ndf');
  const dryMatter = figures.get('dry-matter') ?? 0;
  if (dryMatter >= 10_000 || starch + (ndf ?? 0) > 10_000) return false;
  if (ndf !== undefined && (figures.get('adf') ?? 0) > ndf) return false;
  for (const measure of constituents) if ((figures.get(measure) ?? 0) > 10_000) return false;
  return agreement.price.every((term) => {
    if (term.term !== 'remainder') return true;
    const grain = Number(agreement.references[term.at.reference]?.starchPercentOfDryMatter ?? '100');
    const sum = term.after.reduce((total, part) => total + mostOf(agreement, figures, part, grain), 0);
    // Binary sums err by far less than one unit of the last place that figures have.
    return sum < 1 + 1e-12;
  });
}

function draw(laboratory: Laboratory, plain: boolean): Drawn {
  const { chance, profile, reported } = laboratory;
  const figures: Drawn = new Map([['dry-matter', figure(laboratory, 'dry-matter')]]);
  for (const measure of [...constituents, ...otherMeasures])
    if (reported.has(measure) && !chance.happens(0.012))
      figures.set(measure, plain ? drawn(chance, profile[measure]) : figure(laboratory, measure));
  const ndf = figures.get('ndf');
  if (ndf !== undefined && figures.has('adf') && !chance.happens(0.5))
    figures.set('adf', chance.happens(0.05) ? ndf : Math.round(ndf * (0.3 + chance.next() / 3)));
  // Nothing but starch and fibre: a remainder of exactly zero after both.
  if (figures.has('starch') && ndf !== undefined && ndf % 100 === 0 && chance.happens(0.1))
    figures.set('starch', 10_000 - ndf);
  return figures;
}

function possible(laboratory: Laboratory): Drawn {
  for (let attempt = 0; attempt < 8; attempt += 1) {
    const figures = draw(laboratory, attempt > 3);
    if (isPossible(laboratory.agreement, figures)) return figures;
  }
  const figures = draw(laboratory, true);
  for (const measure of ['ndf', 'adf', 'ash', 'crude-fat', 'crude-protein', 'starch'] as const) {
    if (isPossible(laboratory.agreement, figures)) break;
    figures.delete(measure);
  }
  if (!isPossible(laboratory.agreement, figures))
    figures.set('dry-matter', laboratory.profile['dry-matter'][0]);
  return figures;
}

export function generateSample(laboratory: Laboratory, sample: string): SampleRow {
  const { chance } = laboratory;
  const figures = possible(laboratory);
  const asFed = chance.happens(0.4);
  if (asFed && chance.happens(0.3)) figures.set('dry-matter', chance.pick([5000, 4000, 6250, 8000]));
  const dryMatter = figures.get('dry-matter') ?? 5000;
  const row: SampleRow = {
    sample,
    basis: asFed ? 'as-fed' : 'dry-matter',
    dry_matter: hundredthsText(chance, dryMatter),
  };
  for (const measure of constituents) {
    const value = figures.get(measure);
    if (value === undefined) continue;
    // Written to the last digit, an as-fed figure converts back to the one drawn; cut short, to less.
    const exact = decimalText(value * dryMatter, 6);
    const cut = chance.happens(0.5) ? exact.slice(0, -4) : exact;
    row[sampleColumns[measure]] = asFed ? cut : hundredthsText(chance, value);
  }
  for (const measure of otherMeasures) {
    const value = figures.get(measure);
    if (value !== undefined) row[sampleColumns[measure]] = hundredthsText(chance, value);
  }
  // Cut short, fibre may come out under its own part: write both to the last digit then.
  if (asFed && row.adf !== undefined && row.ndf !== undefined && Number(row.adf) > Number(row.ndf)) {
    row.ndf = decimalText((figures.get('ndf') ?? 0) * dryMatter, 6);
    row.adf = decimalText((figures.get('adf') ?? 0) * dryMatter, 6);
  }
  return row;
}
