/**
 * What the scale page knows of the agreements it weighs for. It comes with the page and is kept with it, so that it is
 * there without a signal too.
 */
import type { SamplingPlan } from '../../domain/samples/sampling-plan.ts';

export interface DeskTruck {
  readonly truck: string;
  readonly plate: string | null;
  /** The middle of its last loads, in the agreement's own unit. */
  readonly usualTare: string | null;
  readonly usualNet: string | null;
}

export interface DeskWeighing {
  readonly ticket: string;
  readonly truck: string | null;
  readonly gross: string;
  readonly unit: string;
}

export interface DeskAgreement {
  readonly id: string;
  readonly number: string;
  /** The other party. */
  readonly partner: string;
  readonly timeZone: string;
  readonly unit: string;
  readonly testsNeeded: boolean;
  readonly sampling: SamplingPlan;
  /** Where the price needs a haul: "miles" or "km". */
  readonly distance: 'miles' | 'km' | null;
  readonly nextTicket: string | null;
  readonly trucks: readonly DeskTruck[];
  /** Trucks that were weighed full and not yet empty. */
  readonly open: readonly DeskWeighing[];
}

export interface DeskScale {
  readonly id: string;
  readonly name: string;
  readonly unit: string;
  /** Its test is overdue, or it was never tested. */
  readonly doubt: string | null;
}

export interface Desk {
  readonly party: string;
  readonly partyId: string;
  readonly agreements: readonly DeskAgreement[];
  readonly scales: readonly DeskScale[];
}
