/**
 * A row of a list of payments, as an office keeps it or as the record has it, and the same read once for comparing.
 * Both lists have the same shape; what the record knows of its documents comes as data in `known`.
 */
import { dayNumber, type LocalDate } from '../../dates/local-date.ts';
import { minorUnits } from '../../money/minor-units.ts';
import type { PaymentMethod } from '../../money/payment-row.ts';
import type { ListSide } from '../list-row.ts';
import { ticketKey } from '../ticket-key.ts';

/** One payment of a list. */
export interface PaymentListRow {
  /** Unique within its list. */
  readonly id: string;
  /** The check's number, or what else tells the payment apart. */
  readonly reference: string | null;
  readonly paidOn: LocalDate;
  /** A decimal string of the currency, never zero: below zero where the seller gives money back. */
  readonly amount: string;
  readonly method: PaymentMethod | null;
  readonly known?: readonly KnownAmount[];
}

/** An amount by which a payment may be larger or smaller, above zero, with the name of its document. */
export interface KnownAmount {
  readonly because: 'discount-taken' | 'fee-within' | 'invoice-within';
  readonly name: string;
  readonly amount: string;
}

export function knownKey(because: KnownAmount['because'], units: bigint): string {
  return `${because} ${units}`;
}

/** Words that say what the number behind them is. */
const BEFORE_NUMBER = /^\s*(checks?|cheques?|chk|ck|number|no|nr|ref|reference)\b[\s.:#]*(?=\S)/i;

/** A reference as two offices would call it the same: "Check #01043" is "1043". */
export function referenceKey(reference: string | null): string | null {
  let bare = reference;
  while (bare !== null && BEFORE_NUMBER.test(bare)) bare = bare.replace(BEFORE_NUMBER, '');
  return ticketKey(bare);
}

/** A row with its figures read. Throws where the amount is none, which is checked before. */
export class ReadPayment {
  readonly reference: string | null;
  readonly day: number;
  /** Minor units. */
  readonly units: bigint;
  /** The digits of the minor units, without a sign. */
  readonly digits: string;
  /** Names of what may be within the amount, by `knownKey`. */
  readonly known: ReadonlyMap<string, string>;
  /** All that the row says but its id. */
  readonly content: string;

  constructor(
    readonly row: PaymentListRow,
    readonly side: ListSide,
    decimals: number,
  ) {
    this.reference = referenceKey(row.reference);
    this.day = dayNumber(row.paidOn);
    this.units = minorUnits(row.amount, { decimals });
    this.digits = String(distance(this.units, 0n));
    this.known = new Map(
      (row.known ?? [])
        .map(
          ({ because, name, amount }) => [knownKey(because, minorUnits(amount, { decimals })), name] as const,
        )
        .toReversed(),
    );
    this.content = [row.paidOn, this.units, this.reference, row.method].join('\n');
  }
}

/** Reads a list. Throws where an id stands twice: that is a defect of whoever gave it. */
export function readPayments(
  rows: readonly PaymentListRow[],
  { side, decimals }: { readonly side: ListSide; readonly decimals: number },
): ReadPayment[] {
  const ids = new Set<string>();
  return rows.map((row) => {
    if (ids.has(row.id)) throw new RangeError(`Two rows of a list are called ${JSON.stringify(row.id)}`);
    ids.add(row.id);
    return new ReadPayment(row, side, decimals);
  });
}

/** The rows that have each key; those without one are left out. */
export function rowsBy(
  rows: readonly ReadPayment[],
  keyOf: (row: ReadPayment) => string | null,
): Map<string, ReadPayment[]> {
  const byKey = new Map<string, ReadPayment[]>();
  for (const row of rows) {
    const key = keyOf(row);
    if (key === null) continue;
    const known = byKey.get(key);
    if (known) known.push(row);
    else byKey.set(key, [row]);
  }
  return byKey;
}

export function distance(a: bigint, b: bigint): bigint {
  return a < b ? b - a : a - b;
}
