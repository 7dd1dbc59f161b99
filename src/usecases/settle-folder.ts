/**
 * Settles a season from its folder: reads and validates all of it, then settles load after load as they stream past.
 */

import type { DeliveredLoad } from '../domain/deliveries/delivered-load.ts';
import type { Money } from '../domain/settlement/line.ts';
import { warnOfPrice } from '../domain/settlement/makes-sense.ts';
import type { Outcome } from '../domain/settlement/outcome.ts';
import { moneyOf, prepareSettlement } from '../domain/settlement/settle-load.ts';
import type { InputProblem } from '../files/input-problem.ts';
import { openSeason, type Season } from '../files/read-season.ts';

export interface SettledSeason {
  readonly season: Season;
  readonly money: Money;
  /** In ticket-file order, many at a time; each is settled when it is taken, and anew at each call. */
  readonly outcomes: () => AsyncGenerator<Iterable<Outcome>>;
}

export interface FolderSettlement {
  /** Undefined where there are problems; nothing has been settled then. */
  readonly settled: SettledSeason | undefined;
  readonly problems: readonly InputProblem[];
  readonly warnings: readonly InputProblem[];
}

/** Settles the season in `folder`; `onLoads` hears how many loads have been read so far. */
export async function settleFolder(
  folder: string,
  onLoads?: (count: number) => void,
): Promise<FolderSettlement> {
  const { season, problems, warnings } = await openSeason(folder, onLoads);
  if (!season) return { settled: undefined, problems, warnings };
  const settle = prepareSettlement(season.agreement, season.evidence);
  const settleEach = function* (loads: readonly DeliveredLoad[]) {
    for (const load of loads) yield settle(load);
  };
  const outcomes = async function* () {
    for await (const loads of season.loads()) yield settleEach(loads);
  };
  const ofPrice = warnOfPrice(season.agreement).map((message) => ({ file: 'agreement.json', message }));
  return {
    settled: { season, money: moneyOf(season.agreement), outcomes },
    problems,
    warnings: [...warnings, ...ofPrice],
  };
}
