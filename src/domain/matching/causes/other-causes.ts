/**
 * Why two days, tickets or tests of one load differ.
 */
import { compare, decimal, HUNDRED, subtract } from '../../numbers/exact.ts';
import type { ReadRow } from '../list-row.ts';
import {
  type Causes,
  DATE_CAUSES,
  type DateCause,
  TEST_CAUSES,
  type TestCause,
  TICKET_CAUSES,
  type TicketCause,
  tryCauses,
} from './cause.ts';
import { type DigitPair, digitTrials } from './digit-slips.ts';
import { alignedDigits, isRounded } from './written.ts';

interface Sides {
  readonly mine: ReadRow;
  readonly record: ReadRow;
}

/** The causes that explain why the days of delivery differ. */
export function dateCauses(sides: Sides): Causes<DateCause> {
  return tryCauses(DATE_CAUSES, DATE_TRIALS, sides);
}

const dayDigits = ({ row }: ReadRow): string => row.deliveredOn.replaceAll('-', '');

const DATE_SLIPS = digitTrials((own: ReadRow, other: ReadRow) => [
  { own: dayDigits(own), other: dayDigits(other), detail: {} },
]);

const DATE_TRIALS = {
  ...DATE_SLIPS,
  'day-shifted': (own: ReadRow, other: ReadRow) => (Math.abs(own.day - other.day) === 1 ? {} : undefined),
  'day-and-month-exchanged': (own: ReadRow, other: ReadRow) => {
    const [year, month, day] = other.row.deliveredOn.split('-');
    return own.row.deliveredOn === `${year}-${day}-${month}` ? {} : undefined;
  },
};

/** The causes that explain why the tickets, as they are compared, differ. */
export function ticketCauses(sides: Sides): Causes<TicketCause> {
  return tryCauses(TICKET_CAUSES, TICKET_TRIALS, sides);
}

const TICKET_TRIALS = digitTrials((own: ReadRow, other: ReadRow): DigitPair[] =>
  own.ticket === null || other.ticket === null ? [] : [{ own: own.ticket, other: other.ticket, detail: {} }],
);

/** The causes that explain why the dry matter differs. */
export function testCauses(sides: Sides): Causes<TestCause> {
  return tryCauses(TEST_CAUSES, TEST_TRIALS, sides);
}

const TEST_TRIALS = {
  ...digitTrials((own: ReadRow, other: ReadRow): DigitPair[] => {
    const { dryMatter: text } = own.row;
    const { dryMatter: expected } = other.row;
    const digits = text === null || expected === null ? undefined : alignedDigits(text, expected);
    return digits ? [{ ...digits, detail: {} }] : [];
  }),
  rounded: (own: ReadRow, other: ReadRow) =>
    own.row.dryMatter !== null && other.dryMatter && isRounded(own.row.dryMatter, other.dryMatter)
      ? {}
      : undefined,
  'moisture-for-dry-matter': (own: ReadRow, other: ReadRow) =>
    own.row.dryMatter !== null &&
    other.dryMatter &&
    compare(decimal(own.row.dryMatter), subtract(HUNDRED, other.dryMatter)) === 0
      ? {}
      : undefined,
};
