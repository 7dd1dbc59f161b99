/**
 * Reference prices by chance: every rule, with and without basis, floor and ceiling, and the calendar
 * of the season that rules and quotes are set in.
 */
import type { Chance } from './random.ts';
import { type Money, moneyIn } from './random-figures.ts';
import type { Reference, Rule } from './season.ts';

export type Calendar = {
  timeZone: string;
  /** Days since 1970 of the first and last delivery, as UTC counts them. */
  firstDay: number;
  lastDay: number;
};

// Each zone with days on which its clocks change, at midnight in some of them.
const clockChanges = [
  ['America/Boise', ['2026-11-01', '2026-03-08']],
  ['Europe/Berlin', ['2026-10-25', '2026-03-29']],
  ['Pacific/Auckland', ['2026-09-27', '2026-04-05']],
  ['America/Sao_Paulo', ['2018-11-04', '2018-02-18']],
  ['Australia/Lord_Howe', ['2026-10-04', '2026-04-05']],
  ['America/St_Johns', ['2026-11-01']],
  ['Asia/Kathmandu', ['2026-10-01']],
  ['America/Chicago', ['2026-11-01']],
  ['UTC', ['2028-02-29']],
] as const;

export function dayOf(date: string): number {
  return Date.parse(date) / 86_400_000;
}

export function dateOf(day: number): string {
  return new Date(day * 86_400_000).toISOString().slice(0, 10);
}

export function generateCalendar(chance: Chance): Calendar {
  const [timeZone, changes] = chance.pick(clockChanges);
  const change = dayOf(chance.pick<string>(changes));
  const span = chance.integer(2, 24);
  const firstDay = change + (chance.happens(0.7) ? -chance.integer(0, span) : chance.integer(-200, 200));
  return { timeZone, firstDay, lastDay: firstDay + span };
}

// Dollars per unit in quarter cents.
const units = [
  { unit: 'bushel', pounds: ['56', '56', '54.4', '60'], low: 1200, high: 2400 },
  { unit: 'short-ton', pounds: ['2000'], low: 48_000, high: 88_000 },
  { unit: 'cwt', pounds: ['100'], low: 2400, high: 4400 },
] as const;

/** A quote near the ordinary price of a unit. */
export function quoteText(chance: Chance, money: Money, unit: string): string {
  const { low, high } = units.find((known) => known.unit === unit) ?? units[0];
  if (chance.happens(0.002)) return '0';
  return money.text(chance.integer(low, high) / 400, chance.integer(0, 2));
}

function age(chance: Chance): { maxAgeDays?: string } {
  return chance.happens(0.4) ? {} : { maxAgeDays: String(chance.pick([0, 1, 2, 3, 7, 7, 14])) };
}

function generateRule(chance: Chance, money: Money, unit: string, calendar: Calendar): Rule {
  const kind = chance.pick([
    'fixed',
    'delivery-day',
    'average',
    'month-average',
    'seller-elects',
    'seller-elects',
  ] as const);
  switch (kind) {
    case 'fixed':
      return { kind, price: quoteText(chance, money, unit) };
    case 'delivery-day':
      return { kind, ...age(chance) };
    case 'average':
      return { kind, quotes: String(chance.integer(1, 9)), ...age(chance) };
    case 'month-average':
      return { kind };
    case 'seller-elects': {
      const from = calendar.firstDay + chance.integer(-10, 10);
      const to = from + chance.integer(0, 50);
      const late = chance.happens(0.4) ? { default: 'window-end' as const } : {};
      return { kind, from: dateOf(from), to: dateOf(to), ...age(chance), ...late };
    }
  }
}

function generateReference(chance: Chance, currency: string, calendar: Calendar, unit: string): Reference {
  const money = moneyIn(currency);
  const { pounds, low, high } = units.find((known) => known.unit === unit) ?? units[0];
  const rule = generateRule(chance, money, unit, calendar);
  const reference: Reference = {
    unit,
    poundsPerUnit: chance.pick<string>(pounds),
    dryMatterPercent: chance.pick(['84.5', '85', '86', '84.50', '88']),
    rule,
  };
  if (chance.happens(0.75)) reference.starchPercentOfDryMatter = chance.pick(['71', '72.5', '70', '68.25']);
  if (chance.happens(0.5)) {
    const size = (chance.integer(-1, 1) * chance.integer(1, 80) * low) / 1200 / 400;
    reference.basis = money.text(size, chance.integer(0, 2));
  }
  const floor = chance.integer(low, high) / 400;
  if (chance.happens(0.35)) reference.floor = money.text(floor, 0);
  const ceiling = floor + chance.integer(0, high - low) / 400;
  if (chance.happens(0.35)) reference.ceiling = money.text(ceiling, 0);
  return reference;
}

export function generateReferences(
  chance: Chance,
  currency: string,
  calendar: Calendar,
): Record<string, Reference> {
  const names = ['corn', 'board', 'silage'].slice(0, chance.integer(1, 3));
  const series = ['corn-elevator-bid', 'board, nearby', 'feed-mill "west"'];
  const references: Record<string, Reference> = {};
  for (const name of names) {
    // The first is always by the bushel, which equivalent bushels need.
    const unit = name === 'corn' ? 'bushel' : chance.pick(['bushel', 'short-ton', 'cwt']);
    const reference = generateReference(chance, currency, calendar, unit);
    const own = series.shift();
    if (reference.rule.kind !== 'fixed' && own !== undefined) reference.series = own;
    references[name] = reference;
  }
  // Two references may read one series; with two windows an election would have to suit both.
  const { corn, board } = references;
  const shared = corn?.series;
  if (shared === undefined || board?.series === undefined || !chance.happens(0.3)) return references;
  if (board.rule.kind !== 'seller-elects' && board.unit === corn?.unit) board.series = shared;
  return references;
}
