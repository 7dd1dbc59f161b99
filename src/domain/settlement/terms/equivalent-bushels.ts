/**
 * `equivalent-bushels`: the wet weight as bushels of dry grain, by its dry matter, a shrink factor or a table.
 */
import type { BushelMethod, Reference, TermOf } from '../../agreement/document.ts';
import {
  add,
  decimal,
  divide,
  type Exact,
  HUNDRED,
  larger,
  multiply,
  ONE,
  percent,
  subtract,
  ZERO,
} from '../../numbers/exact.ts';
import { printUnits, printWritten } from '../../numbers/printing.ts';
import { roundTo, roundToUnits } from '../../numbers/rounding.ts';
import { dryPoundsPerUnit } from '../../prices/reference-price.ts';
import { tell, tellDryPounds, tellEnd, tellPounds, tellShare } from '../derivation.ts';
import { amountOf, type Line, type Money, type TermLack } from '../line.ts';
import { type MeasuredLoad, needed, type PricingContext } from '../measured-load.ts';
import { poundsPerBushelAt, type TableEntry } from './moisture-table.ts';

interface Bushels {
  readonly bushels: Exact;
  readonly told: () => string;
}

/** bushels · R · share; `outside-table` where a table has no row for the load's moisture. */
export function equivalentBushelsLine(
  term: TermOf<'equivalent-bushels'>,
  reference: Reference,
  money: Money,
) {
  const bushelsOf = bushelCounter(term.method, reference);
  const share = percent(decimal(term.sharePercent ?? '100'));
  const places = term.bushelDecimals === undefined ? undefined : Number(term.bushelDecimals);
  return ({ measured, prices }: PricingContext): Line | TermLack => {
    const counted = bushelsOf(measured);
    if ('reason' in counted) return counted;
    const { price } = needed(prices.get(term.at.reference), 'price');
    const quantity =
      places === undefined ? counted.bushels : roundTo(counted.bushels, places, money.rounding);
    const rate = multiply(price, share);
    const amount = amountOf(quantity, rate, money);
    const how = () => {
      const shown =
        places === undefined
          ? ''
          : ` → ${printUnits(roundToUnits(counted.bushels, places, money.rounding), places)}`;
      return [
        `${counted.told()} = ${tell(counted.bushels)}${shown} bushels;`,
        `× ${tell(price)}${tellShare(term.sharePercent)}`,
        tellEnd(multiply(quantity, rate), amount, money),
      ].join(' ');
    };
    return { label: term.label, quantity, unit: 'bushel', rate, amount, how };
  };
}

function bushelCounter(
  method: BushelMethod,
  reference: Reference,
): (measured: MeasuredLoad) => Bushels | TermLack {
  switch (method.kind) {
    case 'dry-matter':
      return byDryMatter(reference);
    case 'shrink':
      return byShrink(method, reference);
    case 'table':
      return byTable(method);
  }
}

/** W · D ÷ (poundsPerUnit · dryMatterPercent/100). */
function byDryMatter(reference: Reference) {
  const dryPounds = dryPoundsPerUnit(reference);
  return (measured: MeasuredLoad): Bushels => ({
    bushels: divide(needed(measured.dryPounds, 'dry matter'), dryPounds),
    told: () =>
      `${tellDryPounds(measured)} ÷ ${printWritten(reference.poundsPerUnit)} ÷ ${printWritten(reference.dryMatterPercent)} %`,
  });
}

/** W · max(0, 1 − max(0, moisture − base) · percentPerPoint/100) ÷ poundsPerUnit, base = 100 − dryMatterPercent. */
function byShrink(method: Extract<BushelMethod, { kind: 'shrink' }>, reference: Reference) {
  const base = subtract(HUNDRED, decimal(reference.dryMatterPercent));
  const perPoint = decimal(method.percentPerPoint);
  const poundsPerBushel = decimal(reference.poundsPerUnit);
  return (measured: MeasuredLoad): Bushels => {
    const moisture = needed(measured.figures.moisture, 'moisture');
    const points = larger(ZERO, subtract(moisture, base));
    const shrink = multiply(points, perPoint);
    const kept = larger(ZERO, subtract(ONE, percent(shrink)));
    return {
      bushels: divide(multiply(measured.load.netPounds, kept), poundsPerBushel),
      told: () =>
        [
          `${tell(moisture)} % moisture is ${tell(points)} points above ${tell(base)} %:`,
          `${tell(points)} × ${printWritten(method.percentPerPoint)} % = ${tell(shrink)} % shrink;`,
          `${tellPounds(measured)} × ${tell(multiply(kept, HUNDRED))} % ÷ ${printWritten(reference.poundsPerUnit)}`,
        ].join(' '),
    };
  };
}

/** W ÷ the table's pounds a bushel at the load's moisture. */
function byTable(method: Extract<BushelMethod, { kind: 'table' }>) {
  const rows = method.rows.map(
    (row): TableEntry => ({ moisture: decimal(row.moisture), pounds: decimal(row.poundsPerBushel) }),
  );
  return (measured: MeasuredLoad): Bushels | TermLack => {
    const moisture = needed(measured.figures.moisture, 'moisture');
    const found = poundsPerBushelAt(rows, moisture, method);
    if (!found) {
      const ends = [method.rows.at(0), method.rows.at(-1)].map((row) => printWritten(row?.moisture ?? ''));
      return {
        reason: 'outside-table',
        detail: `${tell(moisture)} % moisture is outside the table of bushel weights, which runs from ${ends[0]} to ${ends[1]} %`,
      };
    }
    return {
      bushels: divide(measured.load.netPounds, found.pounds),
      told: () =>
        `${tell(moisture)} % moisture: ${tellEntry(found, moisture)}; ${tellPounds(measured)} ÷ ${tell(found.pounds)}`,
    };
  };
}

function tellEntry(
  { pounds, between }: NonNullable<ReturnType<typeof poundsPerBushelAt>>,
  moisture: Exact,
): string {
  if (!between) return `${tell(pounds)} lb a bushel`;
  const { drier, wetter } = between;
  const rise = subtract(wetter.pounds, drier.pounds);
  return [
    `${tell(drier.pounds)} + (${tell(wetter.pounds)} − ${tell(drier.pounds)}) × ${tell(subtract(moisture, drier.moisture))}`,
    `÷ ${tell(subtract(wetter.moisture, drier.moisture))} = ${tell(add(drier.pounds, multiply(rise, between.part)))} lb a bushel`,
  ].join(' ');
}
