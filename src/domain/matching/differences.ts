/**
 * In what the two rows of a pair differ, by how much, and why.
 */
import { compare, subtract, ZERO } from '../numbers/exact.ts';
import { printFixed, printWithEllipsis } from '../numbers/printing.ts';
import { fromPounds } from '../quantities/units.ts';
import { type AmountKind, amountCauses, amountKind } from './causes/amount-causes.ts';
import type { AmountCause, Causes, DateCause, TestCause, TicketCause, WeightCause } from './causes/cause.ts';
import { dateCauses, testCauses, ticketCauses } from './causes/other-causes.ts';
import type { Tares } from './causes/tares.ts';
import { weightCauses } from './causes/weight-causes.ts';
import { isWrittenAs, placesOf } from './causes/written.ts';
import type { ReadRow } from './list-row.ts';

/** `by` is always mine less the record's; `causes` are the likeliest first, and none where the cause is unknown. */
export type Difference =
  | { readonly aspect: 'ticket'; readonly causes: Causes<TicketCause> }
  /** In pounds; "…" stands behind a figure that goes on. */
  | { readonly aspect: 'weight'; readonly by: string; readonly causes: Causes<WeightCause> }
  | { readonly aspect: 'date'; readonly byDays: number; readonly causes: Causes<DateCause> }
  /** In the currency, with as many decimals as it or the figures have. */
  | {
      readonly aspect: 'amount';
      readonly by: string;
      readonly kind: AmountKind;
      readonly causes: Causes<AmountCause>;
    }
  /** In points of dry matter. */
  | { readonly aspect: 'test'; readonly by: string; readonly causes: Causes<TestCause> };

export interface Sides {
  readonly mine: ReadRow;
  readonly record: ReadRow;
}

export interface Comparing {
  readonly tares: Tares;
  /** Of the currency's minor unit. */
  readonly decimals: number;
  /** The number of a row; null where it tells loads apart in neither list, or means something else in each. */
  readonly numberOf: (row: ReadRow) => string | null;
}

/**
 * Every respect in which the pair differs: ticket, weight, date, amount, test. What one list does not say differs from
 * nothing.
 */
export function differencesOf(sides: Sides, { tares, decimals, numberOf }: Comparing): Difference[] {
  const { mine, record } = sides;
  const found: Difference[] = [];
  const [number, recorded] = [numberOf(mine), numberOf(record)];
  if (number !== null && recorded !== null && number !== recorded) {
    found.push({ aspect: 'ticket', causes: ticketCauses(sides) });
  }
  if (!isSameWeight(mine, record)) {
    const by = printWithEllipsis(subtract(mine.pounds, record.pounds));
    found.push({ aspect: 'weight', by, causes: weightCauses(sides, tares) });
  }
  if (mine.day !== record.day) {
    found.push({ aspect: 'date', byDays: mine.day - record.day, causes: dateCauses(sides) });
  }
  if (isOther(mine, record, 'amount')) {
    const causes = amountCauses(sides, decimals);
    const places = Math.max(decimals, placesOf(mine.row.amount ?? ''), placesOf(record.row.amount ?? ''));
    const by = printFixed(subtract(mine.amount ?? ZERO, record.amount ?? ZERO), places);
    found.push({ aspect: 'amount', by, kind: amountKind(causes), causes });
  }
  if (isOther(mine, record, 'dryMatter')) {
    const by = printWithEllipsis(subtract(mine.dryMatter ?? ZERO, record.dryMatter ?? ZERO));
    found.push({ aspect: 'test', by, causes: testCauses(sides) });
  }
  return found;
}

/** Whether both lists have the figure and the two differ, whatever their zeros. */
function isOther(mine: ReadRow, record: ReadRow, figure: 'amount' | 'dryMatter'): boolean {
  // The same text is the same figure: it need not be read.
  if (mine.row[figure] === record.row[figure]) return false;
  const [one, other] = [mine[figure], record[figure]];
  return one !== undefined && other !== undefined && compare(one, other) !== 0;
}

/** Whether the pounds are the same exactly. */
export function isExactlySameWeight(a: ReadRow, b: ReadRow): boolean {
  return (a.row.unit === b.row.unit && a.row.net === b.row.net) || compare(a.pounds, b.pounds) === 0;
}

/**
 * Exactly the same, or, of two lists that are kept in different units, one figure is the other converted and rounded to
 * the decimals that it is written with: 21,373 kg is what a list in kilograms can say of 47,120 lb.
 */
export function isSameWeight(a: ReadRow, b: ReadRow): boolean {
  if (isExactlySameWeight(a, b)) return true;
  if (a.row.unit === b.row.unit) return false;
  return (
    isWrittenAs(a.row.net, fromPounds(b.pounds, a.row.unit)) ||
    isWrittenAs(b.row.net, fromPounds(a.pounds, b.row.unit))
  );
}
