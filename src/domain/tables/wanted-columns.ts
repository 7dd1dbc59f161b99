/**
 * What is wanted of a file: the columns of tickets, results, quotes and a party's own lists, what each is called in words,
 * what its cells look like, and the names that other programs give it (common practice, no source).
 */
import { MEASURE_NAMES, TESTED, type Tested } from '../agreement/measures.ts';
import { columnOf } from './table-shape.ts';

export const IMPORT_KINDS = ['tickets', 'results', 'quotes'] as const;
export type ImportKind = (typeof IMPORT_KINDS)[number];

/** A party's own lists, which are compared with the record and never recorded. */
export const OWN_KINDS = ['own-loads', 'own-payments'] as const;
export type OwnKind = (typeof OWN_KINDS)[number];

/** Files whose columns are matched. */
export const TABLE_KINDS = [...IMPORT_KINDS, ...OWN_KINDS] as const;
export type TableKind = (typeof TABLE_KINDS)[number];

/** What the cells of a column are: `clock` is a time of day beside a date in another column, `money` may have a currency sign. */
export type CellKind = 'text' | 'amount' | 'money' | 'percent' | 'time' | 'clock' | 'date' | 'unit' | 'basis';

export interface WantedColumn {
  /** As the tables of `table-shape.ts` call it; what those do not have is worked into their columns. */
  readonly name: string;
  /** What it is, for whoever matches it. */
  readonly label: string;
  readonly cells: CellKind;
  readonly isRequired: boolean;
  /** Whether one text may stand for all rows. */
  readonly mayBeConstant: boolean;
  /** Names that programs give it, in small letters without signs. */
  readonly names: readonly string[];
}

interface Shape {
  readonly required?: true;
  readonly constant?: true;
}

function wanted(
  name: string,
  label: string,
  rest: { readonly cells: CellKind; readonly names: string } & Shape,
): WantedColumn {
  return {
    name,
    label,
    cells: rest.cells,
    isRequired: rest.required ?? false,
    mayBeConstant: rest.constant ?? false,
    names: [name.replaceAll('_', ' '), ...rest.names.split(', ').filter((word) => word !== '')],
  };
}

const TICKETS: readonly WantedColumn[] = [
  wanted('ticket', 'Ticket number', {
    cells: 'text',
    required: true,
    names: 'ticket number, ticket no, ticket nr, ticket id, tkt, ticket, number, no',
  }),
  wanted('delivered_at', 'Time of delivery', {
    cells: 'time',
    required: true,
    names:
      'date time, date, delivered, delivery date, delivery time, weighed at, gross time, in time, time in, datum, day',
  }),
  wanted('delivered_time', 'Time of day, where the date stands alone', {
    cells: 'clock',
    names: 'time, clock, hour, delivery time, gross time, time in',
  }),
  wanted('gross', 'Gross weight', {
    cells: 'amount',
    required: true,
    names: 'gross weight, gross wt, weight in, full weight, full, loaded, loaded weight, brutto, in weight',
  }),
  wanted('tare', 'Tare weight', {
    cells: 'amount',
    required: true,
    names: 'tare weight, tare wt, weight out, empty weight, empty, tara, out weight',
  }),
  wanted('net', 'Net weight (checked against gross less tare)', {
    cells: 'amount',
    names: 'net weight, net wt, netto',
  }),
  wanted('unit', 'Unit of the weights', {
    cells: 'unit',
    required: true,
    constant: true,
    names: 'units, uom, weight unit, wt unit',
  }),
  wanted('sample', 'Sample', { cells: 'text', names: 'sample id, sample no, sample number, seal, bag' }),
  wanted('truck', 'Truck', { cells: 'text', names: 'truck id, truck no, vehicle, hauler, carrier, unit no' }),
  wanted('plate', 'Licence plate', { cells: 'text', names: 'licence, license, license plate, registration' }),
  wanted('miles', 'Haul in miles', { cells: 'amount', names: 'distance miles, haul miles, mi' }),
  wanted('km', 'Haul in kilometres', {
    cells: 'amount',
    names: 'distance km, haul km, kilometres, kilometers',
  }),
  wanted('moisture_reading', 'Moisture by a meter at the scale, %', {
    cells: 'percent',
    names: 'moisture, moisture reading, moist, meter moisture, h2o',
  }),
  wanted('weigher', 'Weigher', { cells: 'text', names: 'operator, weighed by, weighmaster, scale operator' }),
];

const MEASURE_WORDS: Readonly<Partial<Record<Tested, string>>> = {
  'dry-matter': 'dm, drymatter, total solids, solids',
  starch: 'starch content',
  ndf: 'andf, andfom, neutral detergent fiber, neutral detergent fibre',
  adf: 'acid detergent fiber, acid detergent fibre',
  'crude-protein': 'cp, protein',
  'crude-fat': 'fat, ee, ether extract, crude fat',
  'ammonia-nitrogen': 'nh3n, ammonia n, ammonia',
  'particle-size': 'mean particle size, particle, microns',
  aflatoxin: 'afla, aflatoxins',
  vomitoxin: 'don, deoxynivalenol',
};
const NO_PERCENT: ReadonlySet<Tested> = new Set<Tested>(['ph', 'particle-size', 'aflatoxin', 'vomitoxin']);

const RESULTS: readonly WantedColumn[] = [
  wanted('sample', 'Sample', {
    cells: 'text',
    required: true,
    names: 'sample id, sample no, sample number, sample name, seal, bag, description, client id',
  }),
  wanted('basis', 'What starch, fibre and the like are percent of', {
    cells: 'basis',
    required: true,
    constant: true,
    names: 'reported on, reporting basis',
  }),
  ...TESTED.map((measure) =>
    wanted(
      columnOf(measure),
      `${MEASURE_NAMES[measure].charAt(0).toUpperCase()}${MEASURE_NAMES[measure].slice(1)}`,
      {
        cells: NO_PERCENT.has(measure) ? 'amount' : 'percent',
        names: MEASURE_WORDS[measure] ?? '',
      },
    ),
  ),
  wanted('moisture', 'Moisture, where no dry matter is given', {
    cells: 'percent',
    names: 'moist, water, h2o',
  }),
  wanted('laboratory', 'Laboratory', { cells: 'text', constant: true, names: 'lab, lab name' }),
  wanted('method', 'Method', {
    cells: 'text',
    constant: true,
    names: 'starch method, analysis, test method',
  }),
  wanted('dry_matter_method', 'How dry matter was measured', {
    cells: 'text',
    constant: true,
    names: 'dm method',
  }),
  wanted('reported_on', 'Reported on', {
    cells: 'date',
    constant: true,
    names: 'report date, date reported, reported, date, date completed',
  }),
];

const QUOTES: readonly WantedColumn[] = [
  wanted('series', 'Which price', {
    cells: 'text',
    required: true,
    constant: true,
    names: 'symbol, market, location, commodity, place, elevator',
  }),
  wanted('date', 'Quoted on', {
    cells: 'date',
    required: true,
    names: 'quoted on, quote date, price date, day, trade date',
  }),
  wanted('price', 'Price', {
    cells: 'amount',
    required: true,
    names: 'cash price, bid, cash bid, close, settle, settlement, quote, value',
  }),
];

/** Own books hold what they hold: a day and a weight are enough to look for a load. */
const OWN_LOADS: readonly WantedColumn[] = [
  wanted('ticket', 'Ticket number', {
    cells: 'text',
    names: 'ticket number, ticket no, ticket nr, ticket id, tkt, ticket, number, no',
  }),
  wanted('date', 'Day of delivery', {
    cells: 'date',
    required: true,
    names: 'delivered, delivery date, date time, day, datum, weighed, in date',
  }),
  wanted('truck', 'Truck', { cells: 'text', names: 'truck id, truck no, vehicle, hauler, carrier, unit no' }),
  wanted('gross', 'Gross weight', {
    cells: 'amount',
    names: 'gross weight, gross wt, weight in, full weight, full, loaded, loaded weight, brutto, in weight',
  }),
  wanted('tare', 'Tare weight', {
    cells: 'amount',
    names: 'tare weight, tare wt, weight out, empty weight, empty, tara, out weight',
  }),
  wanted('net', 'Net weight', {
    cells: 'amount',
    names: 'net weight, net wt, netto, weight, pounds, lbs, tons',
  }),
  wanted('unit', 'Unit of the weights', {
    cells: 'unit',
    required: true,
    constant: true,
    names: 'units, uom, weight unit, wt unit',
  }),
  wanted('amount', 'Amount of money', {
    cells: 'amount',
    names: 'amount, total, value, price, paid, payment, dollars, sum, invoice amount',
  }),
  wanted('dry_matter', 'Dry matter, %', { cells: 'percent', names: 'dm, drymatter, total solids, solids' }),
];

const OWN_PAYMENTS: readonly WantedColumn[] = [
  wanted('date', 'Day of payment', {
    cells: 'date',
    required: true,
    names: 'paid on, payment date, check date, posting date, booked, value date, received on, day, datum',
  }),
  wanted('amount', 'Amount of money', {
    cells: 'money',
    required: true,
    names: 'sum, total, value, payment amount, check amount, amount paid, dollars, net amount',
  }),
  wanted('reference', 'Check number or other reference', {
    cells: 'text',
    names:
      'ref, reference no, reference number, check, check no, check number, cheque, chk, payment no, payment number, number, no',
  }),
  wanted('direction', 'Paid or received, where the sign does not say it', {
    cells: 'text',
    names: 'in out, paid or received, debit credit, dr cr, cr dr, sign, flow',
  }),
  wanted('method', 'How it was paid', {
    cells: 'text',
    names: 'payment method, paid by, means, type, form',
  }),
];

export const WANTED: Readonly<Record<TableKind, readonly WantedColumn[]>> = {
  'own-loads': OWN_LOADS,
  'own-payments': OWN_PAYMENTS,
  tickets: TICKETS,
  results: RESULTS,
  quotes: QUOTES,
};
