/**
 * One line of a settlement: quantity × rate, rounded once to the currency's minor unit.
 * `how` is worked out only when somebody asks, since most lines are only added up.
 */
import { type Exact, multiply } from '../numbers/exact.ts';
import { printUnits } from '../numbers/printing.ts';
import { type Rounding, roundToUnits } from '../numbers/rounding.ts';
import type { DistanceUnit, WeightUnit } from '../quantities/units.ts';

/** What amounts are in, and how they are rounded. */
export interface Money {
  readonly currency: string;
  readonly decimals: number;
  readonly rounding: Rounding;
}

/** A percent line is measured in money: its unit is the currency's code. */
export type LineUnit = WeightUnit | DistanceUnit | 'bushel' | 'load' | { readonly currency: string };

export interface Line {
  readonly label: string;
  readonly quantity: Exact;
  readonly unit: LineUnit;
  /** Money per unit, with the share in it. */
  readonly rate: Exact;
  /** In minor units; above zero is owed by the buyer to the seller. */
  readonly amount: bigint;
  /** The derivation in one line of figures. */
  readonly how: () => string;
}

/** A term that cannot be priced for this load yet, and why. */
export interface TermLack {
  readonly reason: 'outside-table';
  readonly detail: string;
}

export function isLack(outcome: Line | TermLack): outcome is TermLack {
  return 'reason' in outcome;
}

/** quantity × rate, rounded once by the agreement's rule; minor units. */
export function amountOf(quantity: Exact, rate: Exact, money: Money): bigint {
  return roundToUnits(multiply(quantity, rate), money.decimals, money.rounding);
}

/** An amount with the currency's decimals: 181582 cents is "1815.82". */
export function printAmount(amount: bigint, money: Money): string {
  return printUnits(amount, money.decimals);
}

/** A line's unit as it is written: `lb`, `short-ton`, …, or the currency of a percent line. */
export function unitName(unit: LineUnit): string {
  return typeof unit === 'string' ? unit : unit.currency;
}
