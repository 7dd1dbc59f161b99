/**
 * Advances that were invoiced for loads which have not settled, so that nothing has used them up yet.
 */
import { minorUnits } from '../../domain/money/minor-units.ts';
import type { MoneyFrame } from './money-frame.ts';

/** By load, in minor units; a load whose advance was used up or given back is not there. */
export function advancesLeft({
  rows,
  money,
}: Pick<MoneyFrame, 'rows' | 'money'>): ReadonlyMap<string, bigint> {
  const left = new Map<string, bigint>();
  for (const { load, advance } of rows.documents.flatMap(({ fact }) => fact.loads)) {
    left.set(load, (left.get(load) ?? 0n) - minorUnits(advance, money));
  }
  return new Map([...left].filter(([, amount]) => amount !== 0n));
}
