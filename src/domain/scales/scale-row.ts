/**
 * A scale as its owner describes it in a form. All faults come at once, each at its column.
 */
import type { LocalDate } from '../dates/local-date.ts';
import { type Exact, isZero } from '../numbers/exact.ts';
import { SCALE_UNITS, type ScaleUnit } from '../quantities/units.ts';
import type { Row } from '../tables/row.ts';
import { ACCURACY_CLASSES, type AccuracyClass, checkDivisions } from './divisions.ts';

export interface DescribedScale {
  readonly name: string;
  readonly place: string;
  readonly unit: ScaleUnit;
  readonly capacity: Exact;
  readonly division: Exact;
  readonly accuracyClass: AccuracyClass;
  /** Sealed for weighing that money is paid by. */
  readonly isLegalForTrade: boolean;
  readonly testedOn: LocalDate | undefined;
  readonly testDueOn: LocalDate | undefined;
  readonly certificate: string | undefined;
}

export const SCALE_COLUMNS = {
  required: ['name', 'place', 'unit', 'capacity', 'division', 'accuracy_class', 'legal_for_trade'],
  optional: ['tested_on', 'test_due_on', 'certificate'],
} as const;

/** The scale, or undefined where the row has faults (which the row then holds). */
export function readScaleRow(row: Row): DescribedScale | undefined {
  const name = row.name('name');
  const place = row.name('place');
  const unit = row.word('unit', SCALE_UNITS);
  const capacity = aboveZero(row, 'capacity');
  const division = aboveZero(row, 'division');
  const accuracyClass = row.word('accuracy_class', ACCURACY_CLASSES);
  const legalForTrade = row.word('legal_for_trade', ['yes', 'no']);
  const testedOn = row.text('tested_on') === '' ? undefined : row.date('tested_on');
  const testDueOn = row.text('test_due_on') === '' ? undefined : row.date('test_due_on');
  const certificate = row.optionalName('certificate');
  if (unit && capacity && division && accuracyClass) {
    const faults = checkDivisions({ accuracyClass, capacity, division, unit });
    for (const fault of faults) row.fault('division', fault);
  }
  if (legalForTrade === 'yes' && accuracyClass === 'not marked') {
    row.fault('accuracy_class', 'must be the one on the scale’s plate, since it is legal for trade');
  }
  if (testDueOn && row.text('tested_on') === '') {
    row.fault('tested_on', 'must be given beside the day the next test is due; it is empty');
  }
  if (testedOn && testDueOn && testDueOn <= testedOn) {
    row.fault('test_due_on', `must be after the last test on ${testedOn}; found ${testDueOn}`);
  }
  if (row.problems.length > 0 || !unit || !capacity || !division || !accuracyClass) return undefined;
  return {
    ...{ name, place, unit, capacity, division, accuracyClass, testedOn, testDueOn },
    isLegalForTrade: legalForTrade === 'yes',
    certificate: certificate === '' ? undefined : certificate,
  };
}

function aboveZero(row: Row, column: string): Exact | undefined {
  const amount = row.amount(column);
  if (amount && isZero(amount)) return row.fault(column, 'must be above 0');
  return amount;
}
