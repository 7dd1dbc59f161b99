/**
 * What was delivered under an agreement against the volume that was agreed, where one was.
 */
import { figuresFor } from '../../documents/figures.ts';
import { conditionsOf } from '../../domain/agreement/conditions.ts';
import { deliveredInWords } from '../../domain/deliveries/delivered-volume.ts';
import { add, decimal, type Exact, ZERO } from '../../domain/numbers/exact.ts';
import { SCALE_UNITS, toPounds } from '../../domain/quantities/units.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readLoadIds, readNetWeights } from '../../store/rows/load-days.ts';
import { readLoads } from '../../store/rows/load-rows.ts';
import { outcomesOf } from '../loads/load-views.ts';
import type { AgreedTerms, FoundAgreement } from './find-agreement.ts';

export interface VolumeInForce {
  readonly found: FoundAgreement;
  /** The version that says how much. */
  readonly inForce: AgreedTerms;
  readonly locale: string;
}

/** In a sentence; undefined where no volume was agreed. Refused loads are left out. */
export async function deliveredSoFar(
  tx: Transaction,
  { found, inForce, locale }: VolumeInForce,
): Promise<string | undefined> {
  const volume = conditionsOf(inForce.agreement)?.volume;
  if (!volume) return undefined;
  const { show } = figuresFor(locale);
  const weighed =
    volume.weight === 'dry-matter' ? await dryDelivered(tx, found) : await wetDelivered(tx, found.row.id);
  return deliveredInWords({ volume, ...weighed, show });
}

interface Weighed {
  readonly pounds: Exact;
  readonly loads: number;
  readonly untested: number;
}

async function wetDelivered(tx: Transaction, agreementId: string): Promise<Weighed> {
  const sums = await readNetWeights(tx, agreementId);
  const pounds = sums.map(({ net, unit }) => {
    const known = SCALE_UNITS.find((name) => name === unit);
    if (!known) throw new Error(`A ticket is in ${unit}`);
    return toPounds(decimal(net), known);
  });
  const loads = sums.reduce((count, sum) => count + sum.loads, 0);
  return { pounds: pounds.reduce(add, ZERO), loads, untested: 0 };
}

async function dryDelivered(tx: Transaction, found: FoundAgreement): Promise<Weighed> {
  const rows = await readLoads(tx, found.row.id, await readLoadIds(tx, found.row.id));
  const taken = (await outcomesOf(tx, found, rows))
    .map(({ outcome }) => outcome)
    .filter(({ status }) => status !== 'refused');
  const dry = taken.flatMap(({ dryPounds }) => dryPounds ?? []);
  return { pounds: dry.reduce(add, ZERO), loads: dry.length, untested: taken.length - dry.length };
}
