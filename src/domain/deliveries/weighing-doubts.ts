/**
 * What is asked about a weighing before it is saved, on the phone itself and with no signal. The record asks again.
 */
import { compare, type Exact, multiply, parseDecimal, subtract } from '../numbers/exact.ts';
import { printDecimal } from '../numbers/printing.ts';
import { NET_APART, TARE_APART } from './usual-truck.ts';

/** What is known of a truck, in the unit of its scale; decimal strings. */
export interface UsualTruck {
  readonly tare: string | null;
  readonly net: string | null;
}

export interface Weighing {
  readonly gross: string;
  /** Undefined where the truck is weighed empty later. */
  readonly tare: string | undefined;
  readonly unit: string;
  readonly usual: UsualTruck | undefined;
}

/** Questions in words; empty where there is nothing to ask. A tare of 31,100 under a gross of 30,000 is one. */
export function weighingDoubts({ gross, tare, unit, usual }: Weighing): string[] {
  const full = parseDecimal(gross);
  if (!full) return ['The gross weight is no number.'];
  if (tare === undefined) return [];
  const empty = parseDecimal(tare);
  if (!empty) return ['The tare is no number.'];
  if (compare(empty, full) >= 0) {
    return [`The gross of ${gross} ${unit} is not above the tare of ${tare} ${unit}. Were they exchanged?`];
  }
  const net = subtract(full, empty);
  const doubts: string[] = [];
  if (isUnlike(empty, usual?.tare, TARE_APART)) {
    doubts.push(`The tare of ${tare} ${unit} is unlike this truck’s usual ${usual?.tare} ${unit}.`);
  }
  if (isUnlike(net, usual?.net, NET_APART)) {
    doubts.push(
      `The net of ${printDecimal(net)} ${unit} is unlike this truck’s usual ${usual?.net} ${unit}.`,
    );
  }
  return doubts;
}

function isUnlike(figure: Exact, usualText: string | null | undefined, share: Exact): boolean {
  const usual = usualText === null || usualText === undefined ? undefined : parseDecimal(usualText);
  if (!usual) return false;
  const apart = subtract(figure, usual);
  const size = apart.n < 0n ? { n: -apart.n, d: apart.d } : apart;
  return compare(size, multiply(usual, share)) > 0;
}
