/**
 * How many of a `per` a load is: short tons, tonnes, hundredweights, pounds or kilograms of its wet or dry weight,
 * one load, or the miles or kilometres that it was hauled.
 */
import type { Per, WeightBasis } from '../agreement/document.ts';
import { type Exact, ONE } from '../numbers/exact.ts';
import { convertDistance, fromPounds, type WeightUnit } from '../quantities/units.ts';
import { tell, tellDryPounds, tellPounds } from './derivation.ts';
import { type MeasuredLoad, needed } from './measured-load.ts';

/** What money is per. */
export interface PerUnit {
  readonly per: Per;
  readonly weight?: WeightBasis | undefined;
}

/** The quantity that a rate per `per` is multiplied by: 47,120 lb as-fed is 23.56 short tons. */
export function quantityPer({ per, weight }: PerUnit, measured: MeasuredLoad): Exact {
  switch (per) {
    case 'load':
      return ONE;
    case 'mile':
    case 'km': {
      const distance = needed(measured.load.distance, 'distance');
      return convertDistance(distance.length, distance.unit, per);
    }
    default: {
      const pounds =
        weight === 'dry-matter' ? needed(measured.dryPounds, 'dry matter') : measured.load.netPounds;
      return fromPounds(pounds, per);
    }
  }
}

const POUNDS_TO: Record<WeightUnit, string> = {
  lb: '',
  cwt: ' ÷ 100',
  'short-ton': ' ÷ 2000',
  kg: ' × 0.45359237',
  tonne: ' × 0.45359237 ÷ 1000',
};

/** The chain from the ticket to that quantity: "47120 lb × 59.2 % ÷ 2000". */
export function tellQuantityPer({ per, weight }: PerUnit, measured: MeasuredLoad): string {
  switch (per) {
    case 'load':
      return '1 load';
    case 'mile':
    case 'km': {
      const { length, unit } = needed(measured.load.distance, 'distance');
      if (unit === per) return `${tell(length)} ${per}`;
      return `${tell(length)} ${unit} ${per === 'km' ? '× 1.609344' : '÷ 1.609344'}`;
    }
    default:
      return (weight === 'dry-matter' ? tellDryPounds(measured) : tellPounds(measured)) + POUNDS_TO[per];
  }
}

const PER_NAMES: Record<Per, string> = {
  lb: 'pound',
  kg: 'kilogram',
  cwt: 'hundredweight',
  'short-ton': 'short ton',
  tonne: 'tonne',
  load: 'load',
  mile: 'mile',
  km: 'kilometre',
};

/** "short ton as-fed", "tonne of dry matter", "load". */
export function namePer({ per, weight }: PerUnit): string {
  const name = PER_NAMES[per];
  if (weight === undefined) return name;
  return weight === 'as-fed' ? `${name} as-fed` : `${name} of dry matter`;
}
