/**
 * A figure of a retest as a form gives it: of a laboratory, or of a second scale with gross and tare.
 */
import type { LocalDate } from '../dates/local-date.ts';
import { compare, type Exact, HUNDRED, isZero } from '../numbers/exact.ts';
import type { Side } from '../retests/costs.ts';
import { TESTERS, type Tester } from '../retests/figures.ts';
import type { Row } from './row.ts';

export const RETEST_COLUMNS = {
  required: ['tester', 'tested_on', 'charge', 'paid_by'],
  optional: ['value', 'tested_by', 'method', 'part', 'scale', 'gross', 'tare'],
} as const;

export interface TestedFigure {
  readonly tester: Tester;
  readonly testedOn: LocalDate;
  readonly charge: Exact;
  readonly paidBy: Side;
  /** Of a laboratory; undefined for a scale. */
  readonly value: Exact | undefined;
  readonly weighed: { readonly gross: Exact; readonly tare: Exact } | undefined;
}

/** `from` and `today` are the first and the last day on which it can have been tested. */
export function readRetestRow(
  row: Row,
  {
    from,
    today,
    isPercent,
  }: { readonly from: LocalDate | undefined; readonly today: LocalDate; readonly isPercent: boolean },
): TestedFigure | undefined {
  const tester = row.word('tester', TESTERS);
  const testedOn = row.date('tested_on');
  if (testedOn && testedOn > today)
    row.fault('tested_on', `must be today, ${today}, or before; found ${testedOn}`);
  if (testedOn && from && testedOn < from)
    row.fault(
      'tested_on',
      `must be ${from}, when it was delivered or the sample was taken, or later; found ${testedOn}`,
    );
  const charge = row.amount('charge');
  const paidBy = row.word('paid_by', ['seller', 'buyer']);
  const isScale = tester === 'second-scale';
  const value = isScale ? undefined : readValue(row, isPercent);
  if (!isScale) row.name('tested_by');
  if (!isScale) row.optionalName('method');
  const weighed = isScale ? readWeighings(row) : undefined;
  if (row.problems.length > 0 || !tester || !testedOn || !charge || !paidBy) return undefined;
  return { tester, testedOn, charge, paidBy, value, weighed };
}

function readValue(row: Row, isPercent: boolean): Exact | undefined {
  const value = row.amount('value');
  if (value && isPercent && compare(value, HUNDRED) > 0) return row.fault('value', 'must be at most 100');
  return value;
}

function readWeighings(row: Row): TestedFigure['weighed'] {
  if (row.text('scale') === '') row.fault('scale', 'is not chosen yet');
  const gross = row.amount('gross');
  const tare = row.amount('tare');
  if (!gross || !tare) return undefined;
  if (isZero(tare)) return row.fault('tare', 'must be above 0: the empty truck is weighed as well');
  return compare(gross, tare) > 0 ? { gross, tare } : row.fault('tare', 'must be below the gross');
}
