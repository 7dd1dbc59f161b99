/**
 * What the shape of `payment` and `deductions` cannot hold: one due date and what it is counted from, and for each
 * deduction the weight and the bushel that its rate is per. Read from whatever is there, so that one fault hides no other.
 */
import { compare, decimal, HUNDRED } from '../numbers/exact.ts';
import type { AgreementProblem, JsonPath } from './problem.ts';
import { asDecimal, asGroup, type RawGroup } from './raw.ts';

/** Problems of a `payment` group: days without what they are counted from, and a second due date. */
export function paymentRules(payment: RawGroup | undefined, path: JsonPath): AgreementProblem[] {
  return payment ? [...countedDays(payment, path), ...oneDueDate(payment, path)] : [];
}

function countedDays(payment: RawGroup, path: JsonPath): AgreementProblem[] {
  const days = payment['netDays'];
  if (days !== undefined && payment.from === undefined) {
    const message =
      'is missing: what the days to pay are counted from, "delivery", "settlement" or "invoice"';
    return [{ path: [...path, 'from'], message }];
  }
  if (days === undefined && payment.from !== undefined) {
    return [{ path: [...path, 'netDays'], message: 'is missing: how many days after that the buyer pays' }];
  }
  return [];
}

/** The ways in which a due date can be agreed; each excludes the others. */
const DUE_BY = ['netDays', 'dayOfMonth', 'deferredTo'] as const;

function oneDueDate(payment: RawGroup, path: JsonPath): AgreementProblem[] {
  const named = DUE_BY.filter((key) => payment[key] !== undefined);
  return named.slice(1).map((key) => ({
    path: [...path, key],
    message: `is a second due date beside "${named[0]}"; keep one of them`,
  }));
}

/** Problems of the rows of `deductions`, each at its own place. */
export function deductionRules(rows: readonly unknown[], path: JsonPath): AgreementProblem[] {
  return rows.flatMap((value, index) => {
    const row = asGroup(value);
    if (!row) return [];
    const place = [...path, index];
    return [...weightOf(row, place), ...bushelOf(row, place), ...atMostAll(row, place)];
  });
}

function weightOf({ per, weight }: RawGroup, path: JsonPath): AgreementProblem[] {
  const isWeighed = per !== undefined && per !== 'load' && per !== 'percent';
  if (isWeighed && weight === undefined) {
    const message = 'is missing: "as-fed" or "dry-matter", which weight it is taken by';
    return [{ path: [...path, 'weight'], message }];
  }
  if (!isWeighed && per !== undefined && weight !== undefined) {
    return [{ path: [...path, 'weight'], message: `has no meaning per ${String(per)}; remove it` }];
  }
  return [];
}

function bushelOf(row: RawGroup, path: JsonPath): AgreementProblem[] {
  const pounds = row['poundsPerBushel'];
  if (row.per === 'bushel' && pounds === undefined) {
    const message = 'is missing: the pounds that count as one bushel, like "56"';
    return [{ path: [...path, 'poundsPerBushel'], message }];
  }
  if (row.per !== 'bushel' && row.per !== undefined && pounds !== undefined) {
    const message = 'belongs to a deduction per bushel; remove it';
    return [{ path: [...path, 'poundsPerBushel'], message }];
  }
  return [];
}

/** Nobody means to take off more than a load's whole price; such a percent is a slip of the hand. */
function atMostAll(row: RawGroup, path: JsonPath): AgreementProblem[] {
  const rate = row.per === 'percent' ? asDecimal(row['rate']) : undefined;
  if (rate === undefined || compare(decimal(rate), HUNDRED) <= 0) return [];
  return [{ path: [...path, 'rate'], message: `must be at most 100 where it is percent; found ${rate}` }];
}
