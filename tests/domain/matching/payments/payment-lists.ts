/** Rows of payments for tests: `9-03 500.00 #1043`. */
import type { LocalDate } from '../../../../src/domain/dates/local-date.ts';
import {
  matchPayments,
  type PaymentOutcome,
} from '../../../../src/domain/matching/payments/match-payments.ts';
import type { PaymentListRow } from '../../../../src/domain/matching/payments/payment-list-row.ts';

export function payments(mark: string, lines: readonly string[]): PaymentListRow[] {
  return lines.map((line, index) => {
    const [day = '', amount = '', reference] = line.split(' ');
    return {
      id: `${mark}${index + 1}`,
      paidOn: `2026-${day}` as LocalDate,
      amount,
      reference: reference ?? null,
      method: null,
    };
  });
}

/** The outcomes of two lists in short: `m1=r1 amount -5.00 digits-transposed`, `only r2`, `twice m2 of m1`. */
export function shortly(outcomes: readonly PaymentOutcome[]): string[] {
  return outcomes.map(inShort);
}

function inShort(outcome: PaymentOutcome): string {
  switch (outcome.kind) {
    case 'pair':
      return [
        `${outcome.mine.id}=${outcome.record.id}`,
        ...outcome.differences.map((one) =>
          [
            one.aspect === 'amount' ? `amount ${one.by}` : `date ${one.byDays}`,
            ...one.causes.map(({ name, slips }) => `${name}:${slips.map(({ by }) => by).join('/')}`),
          ].join(' '),
        ),
      ].join(' ');
    case 'only':
      return `only ${outcome.row.id}${outcome.isWithin === null ? '' : ` within ${outcome.isWithin}`}${outcome.isUndecided ? ' undecided' : ''}`;
    case 'twice':
      return `twice ${outcome.row.id} of ${outcome.of}`;
  }
}

export function matched(mine: readonly string[], record: readonly string[]): string[] {
  return shortly(
    matchPayments({ mine: payments('m', mine), record: payments('r', record) }, { decimals: 2 }),
  );
}
