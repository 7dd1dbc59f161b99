/**
 * How much of an agreed volume has been delivered, in words that both sides read alike.
 */

import type { Conditions } from '../agreement/conditions.ts';
import { compare, decimal, type Exact, subtract, ZERO } from '../numbers/exact.ts';
import { printFixed } from '../numbers/printing.ts';
import { fromPounds } from '../quantities/units.ts';
import { committedRange } from './committed-range.ts';

export interface DeliveredVolume {
  readonly volume: NonNullable<Conditions['volume']>;
  /** As fed, or of dry matter where the volume is told so. */
  readonly pounds: Exact;
  readonly loads: number;
  /** Loads whose dry matter nobody has reported yet: not counted. */
  readonly untested: number;
  /** A decimal string as the reader writes it. */
  readonly show: (decimal: string) => string;
}

/**
 * "312.4 of 1,500 short tons as fed are delivered, in 13 loads." Past the agreed amount and its tolerance it says by how
 * much: 1,700 of 1,500 with 10 % are 50 more than the agreement covers.
 */
export function deliveredInWords({ volume, pounds, loads, untested, show }: DeliveredVolume): string {
  const unit = volume.unit === 'tonne' ? 'tonnes' : 'short tons';
  const weight = volume.weight === 'dry-matter' ? 'of dry matter' : 'as fed';
  const delivered = fromPounds(pounds, volume.unit);
  const { most } = committedRange(decimal(volume.amount), decimal(volume.tolerancePercent ?? '0'));
  const over = subtract(delivered, most);
  const inLoads = loads === 1 ? 'in one load' : `in ${show(String(loads))} loads`;
  return [
    loads === 0
      ? `Nothing of the agreed ${show(volume.amount)} ${unit} ${weight} is delivered yet.`
      : `${show(printFixed(delivered, 1))} of ${show(volume.amount)} ${unit} ${weight} are delivered, ${inLoads}.`,
    ...(untested === 0
      ? []
      : [
          untested === 1
            ? 'One load more waits for its dry matter, and is not counted.'
            : `${show(String(untested))} loads more wait for their dry matter, and are not counted.`,
        ]),
    ...(compare(over, ZERO) > 0
      ? [
          `That is ${show(printFixed(over, 1))} ${unit} more than was agreed${volume.tolerancePercent === undefined ? '' : `, with ${volume.tolerancePercent} % tolerance`}.`,
        ]
      : []),
  ].join(' ');
}
