/**
 * The trucks of an agreement with what they usually weigh, so that a tare or a net unlike it is seen at the scale.
 */

import { readerUnits } from '../../domain/agreement/reader-units.ts';
import { whenText } from '../../domain/dates/instant.ts';
import { LAST_LOADS, median } from '../../domain/deliveries/usual-truck.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import { fromPounds } from '../../domain/quantities/units.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readTruckWeighings } from '../../store/rows/ticket-rows.ts';
import { type FoundAgreement, findAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { groupRows } from '../group-rows.ts';
import { weightsOf } from './doubt-tickets.ts';

export interface TruckView {
  readonly truck: string;
  /** The one that was written last. */
  readonly plate: string | null;
  readonly unit: 'lb' | 'kg';
  /** Medians of its last loads, at most ten, in whole units. */
  readonly usualTare: string;
  readonly usualNet: string;
  readonly loads: number;
  /** ISO 8601, UTC. */
  readonly lastAt: string;
}

/** The truck that came last first. Refuses `not-allowed`, `not-found`. */
export async function readTrucks(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<readonly TruckView[]> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) =>
    trucksOf(tx, await findAgreement(tx, agreementId)),
  );
}

export async function trucksOf(
  tx: Transaction,
  { row, agreement }: FoundAgreement,
): Promise<readonly TruckView[]> {
  const unit = readerUnits(agreement).weight;
  const rows = await readTruckWeighings(tx, row.id, { last: LAST_LOADS });
  const trucks = [...groupRows(rows, ({ truck }) => truck)].map(([truck, loads]) => {
    const weights = loads.map(weightsOf);
    const middle = (what: 'tare' | 'net') =>
      printDecimal(fromPounds(median(weights.map((of) => of[what])), unit), 0);
    return {
      truck,
      plate: loads.findLast(({ plate }) => plate !== null)?.plate ?? null,
      unit,
      usualTare: middle('tare'),
      usualNet: middle('net'),
      loads: loads.length,
      lastAt: whenText(loads.at(-1)?.deliveredAt ?? 0),
    };
  });
  return trucks.sort((a, b) => (a.lastAt < b.lastAt ? 1 : -1));
}
