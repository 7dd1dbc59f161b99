/**
 * What is open by how late it is, in minor units.
 */
import { daysBetween, type LocalDate } from '../dates/local-date.ts';
import type { Standing, StandingDocument } from './standing.ts';

export interface AgedSums {
  readonly notDue: bigint;
  readonly days1to30: bigint;
  readonly days31to60: bigint;
  readonly days61to90: bigint;
  readonly over90: bigint;
  /** Questioned, and so not due. */
  readonly held: bigint;
  /** Below zero by what is paid and not used. */
  readonly onAccount: bigint;
  readonly total: bigint;
}

/** Days past due on a day; 0 where it is not late. */
export function daysLate({ dueOn }: Pick<StandingDocument, 'dueOn'>, on: LocalDate): number {
  return on > dueOn ? daysBetween(dueOn, on) : 0;
}

/** The parts of what is owed on a day; they sum to the balance. */
export function ageing({ documents, onAccount, balance }: Standing, on: LocalDate): AgedSums {
  const sum = (passes: (late: number) => boolean) =>
    documents
      .filter((document) => passes(daysLate(document, on)))
      .reduce((total, { open, held }) => total + open - held, 0n);
  return {
    notDue: sum((late) => late === 0),
    days1to30: sum((late) => late >= 1 && late <= 30),
    days31to60: sum((late) => late >= 31 && late <= 60),
    days61to90: sum((late) => late >= 61 && late <= 90),
    over90: sum((late) => late > 90),
    held: documents.reduce((total, { held }) => total + held, 0n),
    onAccount: -onAccount,
    total: balance,
  };
}
