/**
 * What a buyer writes down of a silo, as a form gives it. All faults come at once, each at its column.
 */
import type { LocalDate } from '../dates/local-date.ts';
import { compare, type Exact, isZero, whole } from '../numbers/exact.ts';
import { SCALE_UNITS } from '../quantities/units.ts';
import type { Row } from '../tables/row.ts';
import type { TableShape } from '../tables/table-shape.ts';
import { type FedFeed, type LeftFeed, MEASURES } from './silo-account.ts';
import { SILO_KINDS, type SiloKind } from './silo-kind.ts';

export interface NamedSilo {
  readonly name: string;
  readonly kind: SiloKind;
}

/** Which loads went in: those of the days from one to another, or of these only the ones with some tickets. */
export interface Filling {
  readonly from: LocalDate;
  readonly to: LocalDate;
  readonly tickets: readonly string[];
}

export const SILO_ENTRY_KINDS = ['silo', 'filling', 'fed', 'left'] as const;
export type SiloEntryKind = (typeof SILO_ENTRY_KINDS)[number];

/** What an entry of each kind is once it is read. */
export interface SiloEntryOf {
  readonly silo: NamedSilo;
  readonly filling: Filling;
  readonly fed: FedFeed;
  readonly left: LeftFeed;
}

export const SILO_ENTRY_SHAPES: Readonly<Record<SiloEntryKind, Pick<TableShape, 'required' | 'optional'>>> = {
  silo: { required: ['name', 'kind'], optional: [] },
  filling: { required: ['from', 'to'], optional: ['tickets'] },
  fed: { required: ['from', 'weight', 'unit', 'dry_matter'], optional: ['to'] },
  left: {
    required: ['on', 'how'],
    optional: ['weight', 'unit', 'volume', 'density', 'measures', 'dry_matter'],
  },
};

/** The readers by kind: each gives undefined where the row has faults, which the row then holds. */
export const SILO_ENTRY_READERS: {
  readonly [Kind in SiloEntryKind]: (row: Row) => SiloEntryOf[Kind] | undefined;
} = {
  silo: (row) => {
    const name = row.name('name');
    const kind = row.word('kind', SILO_KINDS);
    return row.problems.length > 0 || !kind ? undefined : { name, kind };
  },
  filling: (row) => {
    const [from, to] = [row.date('from'), row.date('to')];
    refuseBackwards(row, from, to);
    const named = row.optionalName('tickets').split(/[,;]/);
    const tickets = [...new Set(named.map((text) => text.trim()))].filter((text) => text !== '');
    return row.problems.length > 0 || !from || !to ? undefined : { from, to, tickets };
  },
  fed: (row) => {
    const from = row.date('from');
    const to = row.text('to') === '' ? from : row.date('to');
    refuseBackwards(row, from, to);
    const weight = aboveZero(row, 'weight');
    const unit = row.word('unit', SCALE_UNITS);
    const dryMatter = dryMatterOf(row);
    if (row.problems.length > 0 || !from || !to || !weight || !unit || !dryMatter) return undefined;
    return { from, to, weight, unit, dryMatter };
  },
  left: readLeft,
};

function readLeft(row: Row): LeftFeed | undefined {
  const on = row.date('on');
  const how = row.word('how', ['empty', 'weighed', 'measured']);
  if (how === 'empty') {
    for (const column of ['weight', 'volume', 'density', 'dry_matter']) {
      if (row.text(column) !== '') row.fault(column, 'must be left empty, since nothing is left');
    }
    if (row.problems.length > 0 || !on) return undefined;
    return { how: 'weighed', on, weight: whole(0), unit: 'lb', dryMatter: whole(0) };
  }
  if (how === 'weighed') {
    for (const column of ['volume', 'density']) {
      if (row.text(column) !== '') row.fault(column, 'must be left empty where what is left was weighed');
    }
    const weight = row.amount('weight');
    const unit = row.word('unit', SCALE_UNITS);
    const dryMatter = dryMatterOf(row);
    if (row.problems.length > 0 || !on || !weight || !unit || !dryMatter) return undefined;
    return { how, on, weight, unit, dryMatter };
  }
  if (how === undefined) return undefined;
  if (row.text('weight') !== '') row.fault('weight', 'must be left empty where the volume was measured');
  const volume = aboveZero(row, 'volume');
  const density = aboveZero(row, 'density');
  const measures = row.word('measures', MEASURES);
  const dryMatter = dryMatterOf(row);
  if (row.problems.length > 0 || !on || !volume || !density || !measures || !dryMatter) return undefined;
  return { how, on, volume, density, in: measures, dryMatter };
}

function refuseBackwards(row: Row, from: LocalDate | undefined, to: LocalDate | undefined): void {
  if (from && to && to < from) row.fault('to', `must not be before ${from}; found ${to}`);
}

function aboveZero(row: Row, column: string): Exact | undefined {
  const amount = row.amount(column);
  if (amount && isZero(amount)) return row.fault(column, 'must be above 0');
  return amount;
}

function dryMatterOf(row: Row): Exact | undefined {
  if (row.text('dry_matter') === '') {
    return row.fault('dry_matter', 'must be given: test what was taken out, or use the loads’ own figure');
  }
  const dryMatter = row.optionalPercent('dry_matter');
  if (dryMatter && isZero(dryMatter)) return row.fault('dry_matter', 'must be above 0');
  return dryMatter;
}

/**
 * What of an entry is hardly right, to be asked about: a dry matter under 20 or over 95 %, or a density that no silo has
 * (outside of 20 to 80 lb a cubic foot, 320 to 1,280 kg a cubic metre). Common practice, from memory.
 */
export function unusualInEntry(entry: FedFeed | LeftFeed): readonly string[] {
  const told: string[] = [];
  const { dryMatter } = entry;
  const isOutside = (value: Exact, low: number, high: number) =>
    compare(value, whole(low)) < 0 || compare(value, whole(high)) > 0;
  if (!isZero(dryMatter) && isOutside(dryMatter, 20, 95)) {
    told.push('The dry matter is hardly that of stored feed: it is percent, and most lie from 20 to 95.');
  }
  if ('how' in entry && entry.how === 'measured') {
    const [low, high, per] =
      entry.in === 'feet'
        ? ([20, 80, 'lb a cubic foot'] as const)
        : ([320, 1280, 'kg a cubic metre'] as const);
    if (isOutside(entry.density, low, high)) {
      told.push(
        `The density is hardly that of feed as it lies, water included: most lie from ${low} to ${high} ${per}.`,
      );
    }
  }
  return told;
}
