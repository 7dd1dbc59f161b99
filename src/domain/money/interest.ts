/**
 * Simple interest on what stays unpaid past its due date: from the day after it was due through the day it was paid, by
 * the agreed rate and day count. Worked out exactly and rounded once for each document.
 */
import type { LocalDate } from '../dates/local-date.ts';
import { add, type Exact, multiply, percent, ratio, ZERO } from '../numbers/exact.ts';
import { printUnits, printWithEllipsis } from '../numbers/printing.ts';
import { roundToUnits } from '../numbers/rounding.ts';
import type { Money } from '../settlement/line.ts';
import { countDays, type DayCount, yearDays } from './day-count.ts';
import { daysAfter } from './due-date.ts';

export interface InterestRule {
  readonly percentPerYear: Exact;
  readonly dayCount: DayCount;
}

/** What is owed on a document grows or shrinks by `change` minor units at the end of a day. */
export interface PrincipalChange {
  readonly on: LocalDate;
  readonly change: bigint;
}

/** A time in which one amount was late. */
export interface LateSpell {
  /** Minor units. */
  readonly principal: bigint;
  /** The day before the first that counts. */
  readonly from: LocalDate;
  /** The last day that counts. */
  readonly through: LocalDate;
  readonly days: number;
}

export interface Interest {
  /** Minor units, rounded once. */
  readonly amount: bigint;
  readonly spells: readonly LateSpell[];
  /** "1500.00 × 10 days (2026-04-02 through 2026-04-11) × 6.5 % ÷ 360"; spells are added up in parentheses. */
  readonly how: string;
}

export interface LateDocument {
  readonly dueOn: LocalDate;
  /** All that changed what is owed on it, from its own amount on, in any order. */
  readonly changes: readonly PrincipalChange[];
  readonly through: LocalDate;
}

/**
 * Interest on one document through a day. 1,500.00 due 1 April and paid 11 April, at 6.5 % by actual/360, is 2.71
 * (5 CFR 1315.17). A time in which more was paid than owed bears none.
 */
export function interestOn(document: LateDocument, rule: InterestRule, money: Money): Interest {
  const spells = lateSpells(document, rule.dayCount);
  const daily = ratio(1n, BigInt(yearDays(rule.dayCount)));
  const sum = spells.reduce<Exact>(
    (total, { principal, days }) => add(total, { n: principal * BigInt(days), d: 1n }),
    ZERO,
  );
  // Minor units all along, so they are rounded to none of their own decimals.
  const exact = multiply(multiply(sum, percent(rule.percentPerYear)), daily);
  return {
    amount: roundToUnits(exact, 0, money.rounding),
    spells,
    how: tellInterest(spells, rule, money),
  };
}

function tellInterest(spells: readonly LateSpell[], rule: InterestRule, { decimals }: Money): string {
  if (spells.length === 0) return 'nothing was late';
  const told = spells.map(({ principal, days, from, through }) => {
    const which = `${daysAfter(from, 1)} through ${through}`;
    return `${printUnits(principal, decimals)} × ${days} ${days === 1 ? 'day' : 'days'} (${which})`;
  });
  const sum = told.length === 1 ? told[0] : `(${told.join(' + ')})`;
  return `${sum} × ${printWithEllipsis(rule.percentPerYear)} % ÷ ${yearDays(rule.dayCount)}`;
}

function lateSpells({ dueOn, changes, through }: LateDocument, dayCount: DayCount): LateSpell[] {
  const days = new Map<LocalDate, bigint>();
  for (const { on, change } of changes) {
    // What was paid or put right by the due date was never late.
    const day = on < dueOn ? dueOn : on;
    days.set(day, (days.get(day) ?? 0n) + change);
  }
  // What comes to nothing within a day ends no spell: by 30/360, two halves of a spell can count a day less than the whole.
  const turns = [...days].filter(([, change]) => change !== 0n).sort(([a], [b]) => (a < b ? -1 : 1));
  const spells: LateSpell[] = [];
  let principal = 0n;
  for (const [index, [from, change]] of turns.entries()) {
    if (from >= through) break;
    principal += change;
    const next = turns[index + 1]?.[0];
    const end = next === undefined || next > through ? through : next;
    const counted = countDays(from, end, dayCount);
    if (principal > 0n && counted > 0) spells.push({ principal, from, through: end, days: counted });
  }
  return spells;
}
