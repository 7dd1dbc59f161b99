/**
 * Which public prices an agreement follows.
 */
import type { FoundAgreement } from '../agreements/find-agreement.ts';

/** Names of series, in any of the agreement's versions. */
export function seriesOf({ versions }: FoundAgreement): readonly string[] {
  const named = versions.flatMap(({ agreement }) =>
    Object.values(agreement.references).flatMap(({ series }) => series ?? []),
  );
  return [...new Set(named)];
}
