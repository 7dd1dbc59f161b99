/**
 * Price terms by chance: one to seven in any order, set near the feed's plausible figures so that
 * loads fall inside, outside and exactly on the ends of what is agreed.
 */
import type { Profile } from './feed-profiles.ts';
import { generateSchedule } from './generate-schedule.ts';
import type { Chance } from './random.ts';
import { decimalText, type Money, rateText } from './random-figures.ts';
import {
  type BushelMethod,
  constituents,
  type Extent,
  type LimitTerm,
  type Part,
  type Per,
  type Reference,
  type Term,
  type UnitPrice,
} from './season.ts';

export type Bargain = {
  chance: Chance;
  money: Money;
  profile: Profile;
  references: Record<string, Reference>;
};

const weightUnits = ['short-ton', 'tonne', 'cwt', 'lb', 'kg'] as const;

export function generateExtent(chance: Chance): Extent {
  const per: Per = chance.pick([...weightUnits, 'short-ton', 'short-ton', 'load', 'load', 'mile', 'km']);
  if (per === 'load' || per === 'mile' || per === 'km') return { per };
  return { per, weight: chance.pick(['as-fed', 'dry-matter']) };
}

function unitPrice({ chance, references }: Bargain, onlyDryMatter: boolean): UnitPrice {
  const reference = chance.pick(Object.keys(references));
  const hasStarch = references[reference]?.starchPercentOfDryMatter !== undefined;
  const perStarch = hasStarch && !onlyDryMatter && chance.happens(0.35);
  return { reference, per: perStarch ? 'starch' : 'dry-matter' };
}

function share(chance: Chance): { sharePercent?: string } {
  if (chance.happens(0.4)) return {};
  return { sharePercent: chance.pick(['100', '60', '0', '33.3', '112.5', '50.00', '87.25']) };
}

function constituentTerm(bargain: Bargain, label: string): Term {
  const { chance, references } = bargain;
  const of = chance.pick(['grain-equivalent', 'starch', 'dry-matter', ...constituents] as const);
  const at = unitPrice(bargain, of === 'grain-equivalent');
  const lacksStarch = references[at.reference]?.starchPercentOfDryMatter === undefined;
  const priced = of === 'grain-equivalent' && lacksStarch ? 'starch' : of;
  return { term: 'constituent', label, of: priced, at, ...share(chance) };
}

function remainderTerm(bargain: Bargain, label: string): Term {
  const { chance, references } = bargain;
  const at = unitPrice(bargain, false);
  const hasStarch = references[at.reference]?.starchPercentOfDryMatter !== undefined;
  const grain: Part = hasStarch && chance.happens(0.5) ? 'grain-equivalent' : 'starch';
  const fibre: Part = chance.pick(['ndf', 'adf']);
  const parts: Part[] = [grain, fibre, 'crude-protein', 'crude-fat', 'ash'];
  // The first part alone is common: a grain's dry matter taken out, all else is cob and husk.
  const after = chance.happens(0.4) ? [grain] : chance.shuffled(parts).slice(0, chance.integer(1, 3));
  return { term: 'remainder', label, after, at, ...share(chance) };
}

function bushelMethod({ chance, profile }: Bargain): BushelMethod {
  const kind = chance.pick(['dry-matter', 'shrink', 'table', 'table'] as const);
  if (kind === 'dry-matter') return { kind };
  if (kind === 'shrink') return { kind, percentPerPoint: chance.pick(['1.4', '1.183', '1.25', '2', '0']) };
  const [low, high] = profile.moisture;
  const count = chance.integer(2, 6);
  const gap = Math.max(50, Math.round((high - low) / count / 50) * 50);
  let moisture = Math.round((low + chance.integer(-200, 400)) / 50) * 50;
  let pounds = chance.integer(56, 70) * 100;
  const rows: { moisture: string; poundsPerBushel: string }[] = [];
  for (let row = 0; row < count; row += 1) {
    rows.push({ moisture: decimalText(moisture, 2), poundsPerBushel: decimalText(pounds, 2) });
    moisture += gap;
    pounds += chance.integer(20, 260);
  }
  const between = chance.pick(['linear', 'next-wetter'] as const);
  return chance.happens(0.5) ? { kind, rows, between, drier: 'first-row' } : { kind, rows, between };
}

function bushelTerm(bargain: Bargain, label: string): Term {
  const { chance, references } = bargain;
  const names = Object.keys(references).filter((name) => references[name]?.unit === 'bushel');
  const at = { reference: chance.pick(names) };
  const places = chance.happens(0.5) ? { bushelDecimals: chance.pick(['0', '1', '2', '3']) } : {};
  const method = bushelMethod(bargain);
  return { term: 'equivalent-bushels', label, at, method, ...places, ...share(chance) };
}

function flatTerm({ chance, money }: Bargain, label: string): Term {
  const extent = generateExtent(chance);
  const dollars = (chance.happens(0.5) ? -1 : 1) * (chance.integer(1, 240) / 8);
  return { term: 'flat', label, rate: rateText(chance, money, dollars, extent.per), ...extent };
}

function limitTerm({ chance, money }: Bargain, label: string): Term {
  const extent = generateExtent(chance);
  const floor = chance.integer(8, 320) / 8;
  const ceiling = floor + chance.integer(0, 320) / 8;
  const term: LimitTerm = { term: 'limit', label, ...extent };
  const which = chance.pick(['floor', 'ceiling', 'both'] as const);
  if (which !== 'ceiling') term.floor = rateText(chance, money, floor, extent.per);
  if (which !== 'floor') term.ceiling = rateText(chance, money, ceiling, extent.per);
  // Rounding to a tie-prone figure may have put the floor over the ceiling.
  if (Number(term.floor ?? '0') > Number(term.ceiling ?? 'Infinity')) term.ceiling = term.floor ?? '0';
  return term;
}

const makers = {
  'Feed by its parts': constituentTerm,
  'Grain, by its starch': constituentTerm,
  'Cob, husk and other fibre': remainderTerm,
  'Equivalent bushels': bushelTerm,
  'Hauling & "wet" weather': flatTerm,
  'Out of range, in money': (bargain: Bargain, label: string): Term =>
    generateSchedule(bargain, { label, unit: 'money', ...generateExtent(bargain.chance) }),
  'Prozent außerhalb': (bargain: Bargain, label: string): Term =>
    generateSchedule(bargain, { label, unit: 'percent' }),
  'No less and no more': limitTerm,
} as const;

export function generateTerms(bargain: Bargain): Term[] {
  const { chance } = bargain;
  const kinds = Object.keys(makers) as (keyof typeof makers)[];
  const count = chance.integer(1, 7);
  return Array.from({ length: count }, (_, index) => {
    // Flat rates are where ties come from.
    const kind = chance.happens(0.12) ? 'Hauling & "wet" weather' : chance.pick(kinds);
    return makers[kind](bargain, `${kind} (${index + 1})`);
  });
}
