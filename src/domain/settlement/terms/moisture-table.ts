/**
 * A table of wet pounds that make one bushel of dry grain, by moisture.
 */
import type { BushelMethod } from '../../agreement/document.ts';
import { add, compare, divide, type Exact, multiply, subtract } from '../../numbers/exact.ts';

export interface TableEntry {
  /** Percent as-fed. */
  readonly moisture: Exact;
  /** Wet pounds a bushel. */
  readonly pounds: Exact;
}

export interface FoundPounds {
  readonly pounds: Exact;
  /** The rows on either side and how far between them the load lies (0 to 1), where the table is read between rows. */
  readonly between?: { readonly drier: TableEntry; readonly wetter: TableEntry; readonly part: Exact };
}

/**
 * Pounds a bushel at a moisture: on a row, that row's; between rows, in proportion (`linear`) or the wetter row's
 * (`next-wetter`); drier than the table, the first row's where `drier` says so. Undefined outside the table.
 */
export function poundsPerBushelAt(
  rows: readonly TableEntry[],
  moisture: Exact,
  { between, drier }: Pick<Extract<BushelMethod, { kind: 'table' }>, 'between' | 'drier'>,
): FoundPounds | undefined {
  const index = rows.findIndex((row) => compare(row.moisture, moisture) >= 0);
  const wetter = rows[index];
  if (!wetter) return undefined;
  if (compare(wetter.moisture, moisture) === 0) return { pounds: wetter.pounds };
  const before = rows[index - 1];
  if (!before) return drier === 'first-row' ? { pounds: wetter.pounds } : undefined;
  if (between === 'next-wetter') return { pounds: wetter.pounds };
  const part = divide(subtract(moisture, before.moisture), subtract(wetter.moisture, before.moisture));
  const pounds = add(before.pounds, multiply(subtract(wetter.pounds, before.pounds), part));
  return { pounds, between: { drier: before, wetter, part } };
}
