/**
 * What a weighing can hardly be, by the scale that it names: a weight between two divisions, one above the capacity, or
 * one on a scale whose test is overdue. Each is asked about, none is forbidden.
 */
import type { LocalDate } from '../dates/local-date.ts';
import { compare, type Exact } from '../numbers/exact.ts';
import { printDecimal } from '../numbers/printing.ts';
import type { ScaleUnit } from '../quantities/units.ts';
import { isWholeDivisions } from './divisions.ts';
import { standingByVersions, type Tested } from './test-standing.ts';

/** A scale as it stands now, with every test that was recorded of it. */
export interface KnownScale {
  readonly id: string;
  readonly name: string;
  readonly unit: ScaleUnit;
  readonly capacity: Exact;
  readonly division: Exact;
  /** Oldest first. */
  readonly versions: readonly Tested[];
}

/** One weight of a ticket. */
export interface Weighed {
  readonly ticket: string;
  readonly what: 'gross' | 'tare';
  readonly weight: Exact;
  readonly unit: ScaleUnit;
  /** The local date. */
  readonly on: LocalDate;
}

/** The doubts about one weight, each a sentence. */
export function doubtWeight({ ticket, what, weight, unit, on }: Weighed, scale: KnownScale): string[] {
  const doubts: string[] = [];
  if (unit === scale.unit) {
    const shown = `${ticket}: the ${what} of ${printDecimal(weight)} ${unit}`;
    if (!isWholeDivisions(weight, scale.division)) {
      doubts.push(
        `${shown} is between two divisions of ${scale.name}, which shows steps of ${printDecimal(scale.division)} ${unit}.`,
      );
    }
    if (compare(weight, scale.capacity) > 0) {
      doubts.push(`${shown} is above what ${scale.name} can weigh, ${printDecimal(scale.capacity)} ${unit}.`);
    }
  } else {
    doubts.push(`${ticket}: the ${what} is in ${unit}, and ${scale.name} shows ${scale.unit}.`);
  }
  const standing = standingByVersions(scale.versions, on);
  if (standing.is === 'overdue') {
    doubts.push(
      `${ticket}: the test of ${scale.name} was due by ${standing.dueOn}, before this ${what} on ${on}.`,
    );
  }
  return doubts;
}
