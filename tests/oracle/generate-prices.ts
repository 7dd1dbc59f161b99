/**
 * Quotes, elections and choices by chance: series with gaps, with an open end, or with no quote at all;
 * tickets elected or not, chosen for or not, and some rows that nothing uses.
 */
import { type Calendar, dateOf, dayOf, quoteText } from './generate-references.ts';
import type { Chance } from './random.ts';
import { moneyIn } from './random-figures.ts';
import type { Agreement, ChoiceRow, ElectionRow, LoadRow, PriceRow } from './season.ts';

export function generatePrices(chance: Chance, agreement: Agreement, calendar: Calendar): PriceRow[] {
  const money = moneyIn(agreement.currency);
  const rows: PriceRow[] = [];
  const units = new Map<string, string>();
  for (const { series, unit } of Object.values(agreement.references))
    if (series !== undefined) units.set(series, unit);
  if (chance.happens(0.15)) units.set('barley, unused', 'bushel');
  for (const [series, unit] of units) {
    if (chance.happens(0.06)) continue;
    const start = calendar.firstDay - chance.pick([40, 20, 10, 3, -2]);
    // Half the time the series ends within the season; else it closes the month and most windows.
    const end =
      calendar.lastDay + (chance.happens(0.3) ? -chance.integer(0, 8) : chance.pick([1, 20, 40, 70]));
    const kept = chance.pick([1, 0.9, 0.6, 0.3]);
    const weekends = chance.happens(0.3);
    for (let day = start; day <= end; day += 1) {
      const weekday = (day + 4) % 7;
      if (!weekends && (weekday === 0 || weekday === 6)) continue;
      if (!chance.happens(kept)) continue;
      rows.push({ series, date: dateOf(day), price: quoteText(chance, money, unit) });
    }
  }
  return chance.happens(0.3) ? chance.shuffled(rows) : rows;
}

export function generateElections(chance: Chance, agreement: Agreement, loads: LoadRow[]): ElectionRow[] {
  const rows: ElectionRow[] = [];
  for (const { series, rule } of Object.values(agreement.references)) {
    if (rule.kind !== 'seller-elects' || series === undefined) continue;
    const from = dayOf(rule.from);
    const to = dayOf(rule.to);
    const often = chance.pick([0, 0.5, 0.9]);
    for (const { ticket } of loads) {
      if (!chance.happens(often)) continue;
      const day = chance.pick([from, to, chance.integer(from, to), chance.integer(from, to)]);
      rows.push({ ticket, series, date: dateOf(day) });
    }
  }
  const first = loads[0];
  if (first !== undefined && chance.happens(0.05))
    rows.push({ ticket: first.ticket, series: 'barley, unused', date: '2026-09-01' });
  return chance.shuffled(rows);
}

export function generateChoices(chance: Chance, agreement: Agreement, loads: LoadRow[]): ChoiceRow[] {
  const judged = agreement.acceptance !== undefined;
  const rows: ChoiceRow[] = [];
  for (const { ticket } of loads) {
    if (!chance.happens(judged ? 0.4 : 0.02)) continue;
    rows.push({ ticket, choice: chance.happens(0.5) ? 'accept' : 'refuse' });
  }
  return chance.shuffled(rows);
}
