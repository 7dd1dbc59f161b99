/**
 * Scale tickets by chance: all units, plausible scale divisions and odd decimals, deliveries near local
 * midnight and around clock changes, under the season's sampling plan.
 */
import type { Calendar } from './generate-references.ts';
import { localDate } from './local-date.ts';
import type { Chance } from './random.ts';
import { decimalText } from './random-figures.ts';
import type { Agreement, LoadRow } from './season.ts';

type Scale = { unit: string; decimals: number; divisions: number[]; gross: number; tare: number };

// Weights in the smallest decimal of the scale's unit.
const scales: Scale[] = [
  { unit: 'lb', decimals: 0, divisions: [20, 20, 10, 100, 1], gross: 78_000, tare: 30_000 },
  { unit: 'lb', decimals: 1, divisions: [5, 1], gross: 780_000, tare: 300_000 },
  { unit: 'kg', decimals: 0, divisions: [20, 10, 5], gross: 35_000, tare: 13_500 },
  { unit: 'tonne', decimals: 2, divisions: [2, 1], gross: 3500, tare: 1350 },
  { unit: 'tonne', decimals: 4, divisions: [25, 1], gross: 350_000, tare: 135_000 },
  { unit: 'short-ton', decimals: 2, divisions: [1, 2, 50], gross: 3900, tare: 1500 },
  { unit: 'short-ton', decimals: 5, divisions: [125, 1], gross: 3_900_000, tare: 1_500_000 },
];

function weights(chance: Chance, scale: Scale): Pick<LoadRow, 'gross' | 'tare' | 'unit'> {
  const division = chance.pick(scale.divisions);
  const near = (weight: number): number =>
    Math.round((weight * (0.85 + chance.next() * 0.3)) / division) * division;
  const gross = near(scale.gross);
  // A load just over its tare, and now and then an ordinary one.
  const tare = chance.happens(0.02) ? gross - division : near(scale.tare);
  return {
    gross: decimalText(gross, scale.decimals),
    tare: decimalText(tare, scale.decimals),
    unit: scale.unit,
  };
}

const offsetFormats = new Map<string, Intl.DateTimeFormat>();
const offsets = new Map<string, number>();

/** Minutes east of Greenwich at noon UTC of a day: near enough to aim at local midnight. */
function offsetMinutes(timeZone: string, day: number): number {
  const key = `${timeZone} ${day}`;
  const before = offsets.get(key);
  if (before !== undefined) return before;
  let format = offsetFormats.get(timeZone);
  if (format === undefined) {
    format = new Intl.DateTimeFormat('en-US', { timeZone, timeZoneName: 'longOffset' });
    offsetFormats.set(timeZone, format);
  }
  const [, sign, hours, minutes] = /GMT([+-])(\d+):(\d+)/.exec(format.format((day + 0.5) * 86_400_000)) ?? [];
  const size = Number(hours ?? '0') * 60 + Number(minutes ?? '0');
  const offset = sign === '-' ? -size : size;
  offsets.set(key, offset);
  return offset;
}

function instantText(chance: Chance, milliseconds: number, localOffset: number): string {
  const way = chance.next();
  if (way < 0.12) return new Date(milliseconds).toISOString().replace('.000Z', 'Z');
  const offset = way < 0.24 ? chance.pick([330, -600, 0, 765]) : localOffset;
  const wall = new Date(milliseconds + offset * 60_000).toISOString();
  const size = Math.abs(offset);
  const hours = String(Math.floor(size / 60)).padStart(2, '0');
  const zone = `${offset < 0 ? '-' : '+'}${hours}:${String(size % 60).padStart(2, '0')}`;
  return (milliseconds % 60_000 === 0 && chance.happens(0.5) ? wall.slice(0, 16) : wall.slice(0, 19)) + zone;
}

function deliveredAt(chance: Chance, calendar: Calendar, day: number): string {
  const offset = offsetMinutes(calendar.timeZone, day);
  const minute = chance.happens(0.35)
    ? chance.pick([0, -1, 1, 1439, 60, 59, -30, chance.integer(-90, 90)])
    : chance.integer(0, 1439);
  const second = chance.happens(0.3) ? chance.integer(0, 59) : 0;
  return instantText(chance, ((day * 1440 + minute - offset) * 60 + second) * 1000, offset);
}

function sampleName(chance: Chance, agreement: Agreement, index: number, groups: number): string | undefined {
  switch (agreement.sampling?.plan) {
    case 'composite':
      return chance.happens(0.02) ? undefined : `C${Math.floor(index / groups) + 1}`;
    case 'per-day':
      return chance.happens(0.15) ? `S-${index + 1}` : undefined;
    default:
      return chance.happens(0.02) ? undefined : `S${index + 1}`;
  }
}

export function isPerDistance(agreement: Agreement): boolean {
  return agreement.price.some((term) => 'per' in term && (term.per === 'mile' || term.per === 'km'));
}

export function generateLoads(
  chance: Chance,
  agreement: Agreement,
  calendar: Calendar,
  count: number,
): LoadRow[] {
  const first = chance.integer(1, 900);
  const style = chance.pick(['T', '', 'BK-', '00']);
  const groups = chance.integer(2, 6);
  const oneScale = chance.happens(0.5) ? chance.pick(scales) : undefined;
  const distance = chance.pick(['miles', 'km'] as const);
  const hauled = isPerDistance(agreement) || chance.happens(0.15);
  // A limit on a distance of nothing has no rate to print.
  const limited = agreement.price.some((term) => term.term === 'limit');
  const trucks = chance.happens(0.3);
  const { firstDay, lastDay } = calendar;
  return Array.from({ length: count }, (_, index) => {
    const day = chance.happens(0.9)
      ? firstDay + Math.floor(((lastDay - firstDay + 1) * index) / count)
      : chance.integer(firstDay, lastDay);
    const load: LoadRow = {
      ticket: `${style}${first + index}`,
      delivered_at: deliveredAt(chance, calendar, day),
      ...weights(chance, oneScale ?? chance.pick(scales)),
    };
    const sample = sampleName(chance, agreement, index, groups);
    if (sample !== undefined) load.sample = sample;
    if (hauled)
      load[distance] = chance.pick([
        '12',
        '7.5',
        limited ? '1' : '0',
        decimalText(chance.integer(1, 600), 1),
      ]);
    if (trucks) load.truck = chance.pick(['Blue, "7"', 'long trailer', 'Kipper №3', '=2']);
    return load;
  });
}

/** The samples that loads ask for, by name or by their delivery date. */
export function sampleNames(agreement: Agreement, loads: LoadRow[]): string[] {
  const perDay = agreement.sampling?.plan === 'per-day';
  const names = new Set<string>();
  for (const load of loads) {
    if (load.sample !== undefined) names.add(load.sample);
    else if (perDay) names.add(localDate(load.delivered_at, agreement.timeZone));
  }
  return [...names];
}
