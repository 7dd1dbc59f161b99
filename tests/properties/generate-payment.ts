/**
 * Terms of payment, advances and deductions by chance: every way to say a due date, every day count and every unit.
 */
import { INVOICED_BY } from '../../src/domain/agreement/conditions.ts';
import { DAY_COUNTS } from '../../src/domain/money/day-count.ts';
import { WEIGHT_UNITS } from '../../src/domain/quantities/units.ts';
import type { Chance } from '../oracle/random.ts';
import { decimalText } from '../oracle/random-figures.ts';

type Group = Readonly<Record<string, unknown>>;

function maybe(chance: Chance, group: Group): Group {
  return chance.happens(0.5) ? group : {};
}

/** One due date at most. */
function generateDue(chance: Chance): Group {
  return chance.pick<Group>([
    {
      netDays: String(chance.integer(0, 90)),
      from: chance.pick(['delivery', 'settlement', 'invoice']),
    },
    { dayOfMonth: String(chance.integer(1, 31)) },
    { deferredTo: `2027-0${chance.integer(1, 9)}-${chance.integer(10, 28)}` },
    {},
  ]);
}

export function generatePayment(chance: Chance): Group {
  return {
    ...generateDue(chance),
    invoices: chance.pick(INVOICED_BY),
    ...maybe(chance, { issuedBy: chance.pick(['seller', 'buyer']) }),
    ...maybe(chance, {
      interest: {
        percentPerYear: decimalText(chance.integer(0, 1_800), 2),
        dayCount: chance.pick(DAY_COUNTS),
      },
    }),
    ...maybe(chance, {
      discount: {
        percent: decimalText(chance.integer(1, 99), 1),
        withinDays: String(chance.integer(0, 30)),
      },
    }),
    ...maybe(chance, { returnedPaymentFee: decimalText(chance.integer(1, 9_000), 2) }),
    ...maybe(chance, { text: 'By bank transfer' }),
  };
}

export function generateAdvance(chance: Chance): Group {
  return {
    sharePercent: String(chance.integer(1, 99)),
    rate: decimalText(chance.integer(100, 9_999), chance.integer(0, 2)),
    per: chance.pick([...WEIGHT_UNITS, 'load']),
    ...maybe(chance, { byNewestQuote: chance.happens(0.5) }),
  };
}

export function generateDeductions(chance: Chance): readonly Group[] {
  const labels = ['Corn checkoff', 'Scale fee', 'Promotion, by the ton'];
  return chance
    .shuffled(labels)
    .slice(0, chance.integer(1, 3))
    .map((label) => ({
      label,
      ...generateRate(chance),
      ...maybe(chance, { payee: chance.pick(['Cinder Plain Corn Board', 'The scale at the mill road']) }),
    }));
}

function generateRate(chance: Chance): Group {
  const weight = chance.pick(['as-fed', 'dry-matter']);
  const rate = decimalText(chance.integer(1, 900), 3);
  return chance.pick<Group>([
    { rate, per: chance.pick(WEIGHT_UNITS), weight },
    { rate, per: 'bushel', weight, poundsPerBushel: decimalText(chance.integer(560, 700), 1) },
    { rate, per: chance.pick(['load', 'percent']) },
  ]);
}
