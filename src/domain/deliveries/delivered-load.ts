/**
 * One delivered truckload as its scale ticket has it.
 */
import type { Instant } from '../dates/instant.ts';
import type { LocalDate } from '../dates/local-date.ts';
import type { Exact } from '../numbers/exact.ts';
import type { DistanceUnit, ScaleUnit } from '../quantities/units.ts';

export interface DeliveredLoad {
  readonly ticket: string;
  readonly deliveredAt: Instant;
  /** The local date in the agreement's time zone. */
  readonly deliveredOn: LocalDate;
  readonly unit: ScaleUnit;
  readonly gross: Exact;
  readonly tare: Exact;
  /** Gross less tare, in the scale's own unit. */
  readonly net: Exact;
  /** The net weight in pounds, exactly. */
  readonly netPounds: Exact;
  readonly sample?: string;
  readonly truck?: string;
  readonly distance?: { readonly length: Exact; readonly unit: DistanceUnit };
}
