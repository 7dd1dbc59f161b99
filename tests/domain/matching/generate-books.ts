/**
 * A pair of books of one season, seeded: the record, and the list that another office kept of the same loads, written its
 * own way and with differences planted of which the truth is known.
 */
import type { ListRow, ListSide } from '../../../src/domain/matching/list-row.ts';
import { type Chance, chanceFrom } from '../../oracle/random.ts';
import {
  cents,
  divideRounded,
  hundredths,
  PLANTED_KINDS,
  type Planted,
  type PlantedKind,
  plant,
  type Truth,
} from './plant.ts';

export interface Books {
  readonly mine: readonly ListRow[];
  readonly record: readonly ListRow[];
  /** Of each planted difference by the list and row that tell of it; all other rows agree. */
  readonly truth: ReadonlyMap<string, Truth>;
}

/** How the truth names a row. */
export function nameOf(side: ListSide, id: string): string {
  return `${side} ${id}`;
}

const LOADS_A_DAY = 250;
const TRUCKS = 40;
const FIRST_DAY = Date.parse('2024-09-02');
const DAY = 86_400_000;
/** Quotes of so many days around the delivery are asked about. */
const DAYS_AROUND = 4;

interface Season {
  readonly chance: Chance;
  readonly tares: readonly { truck: string; tare: string }[];
  /** Cents a bushel by day. */
  readonly quotes: readonly bigint[];
}

/** Books of `rows` loads with `planted` differences, of each kind as many as of any other. */
export function generateBooks({
  rows,
  planted,
  seed,
}: {
  readonly rows: number;
  readonly planted: number;
  readonly seed: number;
}): Books {
  const chance = chanceFrom(seed);
  const days = Math.ceil(rows / LOADS_A_DAY);
  const season: Season = {
    chance,
    tares: Array.from({ length: TRUCKS }, (_, truck) => ({
      truck: `Q${truck + 1}`,
      tare: String(27_000 + 220 * truck + 20 * chance.integer(0, 9)),
    })),
    quotes: Array.from({ length: days + 2 * DAYS_AROUND }, () => BigInt(chance.integer(380, 560))),
  };
  const loads = Array.from({ length: rows }, (_, index) => recorded(index, season));
  const plan = planFor(loads, planted, season);
  const truth = new Map<string, Truth>();
  const record: ListRow[] = [];
  const mine: ListRow[] = [];
  for (const [index, load] of loads.entries()) {
    const { kind, changed } = plan.get(index) ?? { kind: undefined, changed: undefined };
    const own = asOwn(changed?.row ?? load, chance);
    if (kind !== 'only-in-mine') record.push(load);
    if (kind !== 'only-in-record') mine.push(own);
    if (!kind) continue;
    const tell = (side: ListSide, id: string, standing: string) =>
      truth.set(nameOf(side, id), { kind, standings: [standing], cause: changed?.cause });
    if (kind === 'only-in-mine') tell('mine', own.id, kind);
    else if (kind === 'only-in-record') tell('record', load.id, kind);
    else if (kind === 'twice-in-mine') {
      mine.push({ ...own, id: `again-${own.id}` });
      tell('mine', `again-${own.id}`, 'twice');
    } else if (kind === 'twice-in-record') {
      record.push({ ...load, id: `again-${load.id}` });
      tell('record', `again-${load.id}`, 'twice');
    } else tell('mine', own.id, changed?.standing ?? '');
  }
  return { mine: chance.shuffled(mine), record, truth };
}

interface Plan {
  readonly kind: PlantedKind;
  readonly changed: Planted;
}

/** Which load has which difference, all over the season; a load that cannot have one kind is kept for another. */
function planFor(loads: readonly ListRow[], planted: number, { chance, tares }: Season): Map<number, Plan> {
  const plan = new Map<number, Plan>();
  let free = chance.shuffled(loads.map((_, index) => index));
  for (let count = 0; count < planted; count++) {
    const kind = PLANTED_KINDS[count % PLANTED_KINDS.length] ?? 'only-in-mine';
    const kept: number[] = [];
    let at = 0;
    for (; at < free.length && plan.size === count; at++) {
      const index = free[at] ?? 0;
      const row = loads[index];
      const changed = row && plant(kind, { row, chance, tares });
      if (changed) plan.set(index, { kind, changed });
      else kept.push(index);
    }
    if (plan.size === count) throw new Error(`No load is left for ${kind}`);
    free = kept.length === 0 ? free.slice(at) : [...kept, ...free.slice(at)];
  }
  return plan;
}

function recorded(index: number, { chance, tares, quotes }: Season): ListRow {
  const day = Math.floor(index / LOADS_A_DAY);
  const truck = tares[index % TRUCKS] ?? { truck: 'Q0', tare: '30000' };
  const net = BigInt(38_000 + 20 * chance.integer(0, 900));
  const dryMatter = BigInt(chance.integer(520, 660));
  const hauling = divideRounded(net * 425n, 2000n);
  // Two thirds by starch, the rest by fibre, and hauling off: three lines, each rounded.
  const priced = (quote: bigint, tenths: bigint) =>
    divideRounded(net * tenths * quote * 2n, 3n * 56n * 845n) +
    divideRounded(net * tenths * quote, 3n * 56n * 845n * 2n) -
    hauling;
  const quoteOf = (at: number) => quotes[at + DAYS_AROUND] ?? 400n;
  const around = Array.from({ length: 2 * DAYS_AROUND + 1 }, (_, at) => day + at - DAYS_AROUND);
  return {
    id: `r${index + 1}`,
    ticket: String(100_000 + index + 1),
    deliveredOn: dayText(day),
    truck: truck.truck,
    unit: 'lb',
    gross: String(net + BigInt(truck.tare)),
    tare: truck.tare,
    net: String(net),
    amount: hundredths(priced(quoteOf(day), dryMatter)),
    dryMatter: `${dryMatter / 10n}.${dryMatter % 10n}`,
    priced: {
      lines: 3,
      byDay: Object.fromEntries(
        around
          .filter((at) => at !== day)
          .map((at) => [dayText(at), hundredths(priced(quoteOf(at), dryMatter))]),
      ),
      alternatives: [
        {
          because: 'as-fed-for-dry',
          name: 'grain by weight as fed',
          amount: hundredths(priced(quoteOf(day), 1000n)),
        },
      ],
      charges: [
        { name: 'hauling', amount: hundredths(-hauling) },
        { name: 'testing', amount: hundredths(cents('-12.50')) },
      ],
    },
  };
}

function dayText(day: number): ListRow['deliveredOn'] {
  return new Date(FIRST_DAY + day * DAY).toISOString().slice(0, 10) as ListRow['deliveredOn'];
}

/** The same load as the other office writes it: tickets with zeros, dashes or the letter O, and no prices of its own. */
function asOwn({ priced: _, ...row }: ListRow, chance: Chance): ListRow {
  const { ticket } = row;
  const written =
    ticket === null
      ? null
      : chance.pick([
          ticket,
          `00${ticket}`,
          `${ticket.slice(0, 3)}-${ticket.slice(3)}`,
          ticket.replaceAll('0', 'O'),
          ` ${ticket.slice(0, 2)} ${ticket.slice(2).replaceAll('0', 'o')}`,
        ]);
  return { ...row, id: `m${row.id.slice(1)}`, ticket: written, truck: row.truck?.toLowerCase() ?? null };
}
