/**
 * A row of a list of loads, as an office keeps it or as the record has it, and the same read once for comparing.
 * Both lists have the same shape; what the record knows of its own prices comes as data in `priced`.
 */
import { dayNumber, type LocalDate } from '../dates/local-date.ts';
import { decimal, type Exact, floor, multiply, whole } from '../numbers/exact.ts';
import { toPounds, type WeightUnit } from '../quantities/units.ts';
import { ticketKey } from './ticket-key.ts';

/** One load of a list. Weights are decimal strings in `unit`, amounts decimal strings of one currency. */
export interface ListRow {
  /** Unique within its list. */
  readonly id: string;
  readonly ticket: string | null;
  readonly deliveredOn: LocalDate;
  readonly truck: string | null;
  readonly unit: WeightUnit;
  readonly gross: string | null;
  readonly tare: string | null;
  readonly net: string;
  readonly amount: string | null;
  /** Percent of the weight as delivered. */
  readonly dryMatter: string | null;
  readonly priced?: PricedOtherwise;
}

/** What the amount of a load would have been, had something been done otherwise. */
export interface PricedOtherwise {
  /** The amount by the quote of each of these days. */
  readonly byDay?: Readonly<Record<string, string>>;
  readonly alternatives?: readonly AlternativeAmount[];
  /** Charges within the amount, signed as they stand in it: hauling that is taken off is below zero. */
  readonly charges?: readonly NamedAmount[];
  /** How many lines the amount is the sum of; each may be rounded by another rule. One where it is not said. */
  readonly lines?: number;
}

export interface NamedAmount {
  readonly name: string;
  readonly amount: string;
}

/** `as-fed-for-dry`: worked out from the weight as fed; `other-test`: from another test result, named. */
export interface AlternativeAmount extends NamedAmount {
  readonly because: 'as-fed-for-dry' | 'other-test';
}

export type ListSide = 'mine' | 'record';

/** The other of the two lists. */
export function otherSide(side: ListSide): ListSide {
  return side === 'mine' ? 'record' : 'mine';
}

const THOUSAND = whole(1000);

/**
 * A row with its figures read. Pounds are exact. What only a few rows are asked for is read when it is asked for: most
 * rows agree. Every figure throws where it is no decimal, which is checked before.
 */
export class ReadRow {
  /** The number on the ticket as it is compared; null where the list has none. */
  readonly ticket: string | null;
  /** Trucks are written as loosely as tickets. */
  readonly truck: string | null;
  readonly pounds: Exact;
  /** Thousandths of a pound, rounded down: a whole number to sort and to reckon distances by. */
  readonly thousandths: number;
  private says: string | undefined;

  constructor(
    readonly row: ListRow,
    readonly side: ListSide,
    /** Where it stands in its list, from 0. */
    readonly place: number,
    readonly day: number,
  ) {
    this.ticket = ticketKey(row.ticket);
    this.truck = ticketKey(row.truck);
    this.pounds = toPounds(decimal(row.net), row.unit);
    this.thousandths = Number(floor(multiply(this.pounds, THOUSAND)));
  }

  get grossPounds(): Exact | undefined {
    return this.inPounds(this.row.gross);
  }

  get tarePounds(): Exact | undefined {
    return this.inPounds(this.row.tare);
  }

  get amount(): Exact | undefined {
    return this.row.amount === null ? undefined : decimal(this.row.amount);
  }

  get dryMatter(): Exact | undefined {
    return this.row.dryMatter === null ? undefined : decimal(this.row.dryMatter);
  }

  /** All that the row says but its id: rows of equal content are told apart by nothing. */
  get content(): string {
    const { deliveredOn, unit, net, gross, tare, amount, dryMatter } = this.row;
    this.says ??= [deliveredOn, unit, net, this.truck, this.ticket, gross, tare, amount, dryMatter].join(
      '\n',
    );
    return this.says;
  }

  private inPounds(text: string | null): Exact | undefined {
    return text === null ? undefined : toPounds(decimal(text), this.row.unit);
  }
}

/** Reads a list. Throws where an id stands twice: that is a defect of whoever gave them. */
export function readList(rows: readonly ListRow[], side: ListSide): ReadRow[] {
  const ids = new Set<string>();
  // A season has few days, and reading one takes a while.
  const days = new Map<LocalDate, number>();
  return rows.map((row, place) => {
    if (ids.has(row.id)) throw new RangeError(`Two rows of a list are called ${JSON.stringify(row.id)}`);
    ids.add(row.id);
    const day = days.get(row.deliveredOn) ?? dayNumber(row.deliveredOn);
    days.set(row.deliveredOn, day);
    return new ReadRow(row, side, place, day);
  });
}

/** What puts rows in an order of their own. */
export interface Ordered {
  /** All that the row says but its id. */
  readonly content: string;
  readonly row: { readonly id: string };
}

/**
 * An order of rows that hangs on what they say and, where they say the same, on their ids, of which the shorter comes
 * first: numbered rows stand in the order of their list. So no result depends on the order that they were handed over in.
 */
export function inOwnOrder<Row extends Ordered>(rows: readonly Row[]): Row[] {
  return rows.toSorted((a, b) => compareTexts(a.content, b.content) || compareIds(a.row.id, b.row.id));
}

/** By code units: the same on every machine. */
export function compareTexts(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function compareIds(a: string, b: string): number {
  return a.length - b.length || compareTexts(a, b);
}
