/**
 * Which sample a load's figures come from, by the agreement's sampling plan.
 */
import type { Agreement } from '../agreement/document.ts';
import type { DeliveredLoad } from '../deliveries/delivered-load.ts';

export type SamplingPlan = NonNullable<Agreement['sampling']>['plan'];

/** The sample that a load names or, sampled by the day, that of its delivery date; undefined where there is neither. */
export function sampleOf(load: DeliveredLoad, { sampling }: Pick<Agreement, 'sampling'>): string | undefined {
  return load.sample ?? (sampling?.plan === 'per-day' ? load.deliveredOn : undefined);
}
