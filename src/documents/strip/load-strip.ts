/**
 * The load strip: a load drawn as a strip as long as its weight, always divided into water, starch, fibre and the rest.
 * Pure geometry in parts of 1, for paper and screen alike. What was not tested is not drawn as known:
 * it stays within the rest, and the rest says so.
 */
export type StripPart = 'water' | 'starch' | 'fibre' | 'rest';

export interface StripShare {
  /** Part of the load's weight as delivered, 0 to 1. */
  readonly share: number;
  /** The same as printed, in percent without the sign: "40.8". */
  readonly percent: string;
}

export interface LoadComposition {
  /** The load's weight as printed, with its unit: "47,120 lb". */
  readonly weight: string;
  /** The load's weight as a part of the longest strip's, 0 to 1. */
  readonly length: number;
  /** null: not tested. */
  readonly water: StripShare | null;
  readonly starch: StripShare | null;
  readonly fibre: StripShare | null;
  /** Percent of all that is not drawn as water, starch or fibre; null where nothing was tested. */
  readonly restPercent: string | null;
}

export interface StripSegment {
  readonly part: StripPart;
  /** Where the part begins and ends, 0 to 1 of this strip. */
  readonly from: number;
  readonly to: number;
  readonly label: string;
  readonly percent: string | null;
}

export interface LoadStrip {
  readonly length: number;
  readonly segments: readonly StripSegment[];
  /** The picture in words. */
  readonly text: string;
}

const labels: Readonly<Record<Exclude<StripPart, 'rest'>, string>> = {
  water: 'water',
  starch: 'starch',
  fibre: 'fibre (NDF)',
};

/** Shares come from exact figures through binary fractions; this much may be lost on the way. */
const SLACK = 1e-6;

function within01(value: number, what: string): number {
  if (!(value >= 0 && value <= 1 + SLACK)) throw new RangeError(`${what} is not between 0 and 1: ${value}`);
  return Math.min(value, 1);
}

function restLabel(untested: readonly string[], tested: number): string {
  if (tested === 0) return 'not tested';
  return untested.length === 0 ? 'the rest' : `the rest, ${untested.join(' and ')} not tested`;
}

/**
 * The strip of one load. Throws RangeError where a share or the length is outside 0 to 1 or the shares exceed 1.
 *
 * 47,120 lb with 40.8 % water, 32.0 % starch and 18.6 % fibre: segments end at 0.408, 0.728, 0.914 and 1.
 */
export function loadStrip(load: LoadComposition): LoadStrip {
  const length = within01(load.length, 'length');
  const segments: StripSegment[] = [];
  const untested: string[] = [];
  let from = 0;
  for (const part of ['water', 'starch', 'fibre'] as const) {
    const share = load[part];
    if (share === null) {
      untested.push(labels[part]);
      continue;
    }
    const to = within01(from + within01(share.share, part), `the sum of shares up to ${part}`);
    segments.push({ part, from, to, label: labels[part], percent: share.percent });
    from = to;
  }
  const label = restLabel(untested, segments.length);
  segments.push({ part: 'rest', from, to: 1, label, percent: load.restPercent });
  const words = segments.map((segment) =>
    segment.percent === null ? segment.label : `${segment.percent} % ${segment.label}`,
  );
  return { length, segments, text: `${load.weight}: ${words.join(', ')}` };
}
