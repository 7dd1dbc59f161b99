/**
 * An allowance that both sides agreed on for one load outside its ranges: money off per weight or load, as one more
 * flat line behind the agreement's own.
 */
import type { WeightBasis } from '../agreement/document.ts';
import { compare, parseDecimal, ZERO } from '../numbers/exact.ts';
import { plainDecimal } from '../numbers/printing.ts';
import { WEIGHT_UNITS, type WeightUnit } from '../quantities/units.ts';
import type { Row } from '../tables/row.ts';
import type { Line, Money } from './line.ts';
import type { MeasuredLoad } from './measured-load.ts';
import { flatLine } from './terms/flat.ts';

export const ALLOWANCE_LABEL = 'Allowance agreed for this load';

export interface Allowance {
  /** Money taken off per `per`, above zero; a decimal string. */
  readonly takenOff: string;
  readonly per: WeightUnit | 'load';
  /** Null per load. */
  readonly weight: WeightBasis | null;
}

export const ALLOWANCE_COLUMNS = { required: ['taken_off', 'per'], optional: ['weight'] } as const;
const PER = [...WEIGHT_UNITS, 'load'] as const;
const WEIGHTS: readonly WeightBasis[] = ['as-fed', 'dry-matter'];

/** An allowance as a form gives it, or undefined where the row has faults. */
export function readAllowanceRow(row: Row): Allowance | undefined {
  const text = row.text('taken_off');
  const amount = parseDecimal(text);
  if (!amount || compare(amount, ZERO) <= 0) {
    row.fault(
      'taken_off',
      `must be the money taken off, a number above 0, like 3.50; found ${JSON.stringify(text)}`,
    );
  }
  const per = row.word('per', PER);
  const isPerLoad = per === 'load';
  if (isPerLoad && row.text('weight') !== '') row.fault('weight', 'must be empty for money off per load');
  const weight = isPerLoad || per === undefined ? null : (row.word('weight', WEIGHTS) ?? null);
  if (row.problems.length > 0 || !per) return undefined;
  return { takenOff: plainDecimal(text), per, weight };
}

/** The line: 3.50 off per short ton as-fed of 23.56 short tons is −82.46. */
export function allowanceLine(
  { takenOff, per, weight }: Allowance,
  { measured, money }: { readonly measured: MeasuredLoad; readonly money: Money },
): Line {
  const term = {
    term: 'flat' as const,
    label: ALLOWANCE_LABEL,
    rate: `-${takenOff}`,
    per,
    ...(weight === null ? {} : { weight }),
  };
  return flatLine(term, money)({ measured, prices: new Map(), before: 0n });
}
