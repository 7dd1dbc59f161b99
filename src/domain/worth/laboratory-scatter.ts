/**
 * How far two laboratories may lie apart on one sample: published reproducibility limits, R = 2.8 s_R (ISO 5725-6),
 * in points of the measure. No limit is derived where none is published, and none from the Horwitz function, which
 * does not apply to moisture, fibre or starch (AOAC Official Methods, appendix F).
 */
import type { Measure } from '../agreement/measures.ts';
import { decimal, type Exact, HUNDRED, multiply, percent, subtract } from '../numbers/exact.ts';

/** 95 of 100 pairs of results lie within R of one another: from the closest laboratories to the widest. */
export interface Scatter {
  readonly low: Exact;
  readonly high: Exact;
  readonly source: string;
}

const R_PER_DEVIATION = decimal('2.8');

interface Published {
  /** Standard deviations of reproducibility, in points or, `ofValue`, in percent of the figure. */
  readonly deviations: readonly [low: string, high: string];
  readonly ofValue?: true;
  readonly source: string;
}

const PUBLISHED: Partial<Readonly<Record<Measure, Published>>> = {
  'dry-matter': {
    deviations: ['0.44', '0.77'],
    ofValue: true,
    source: 'Karl Fischer trial, J AOAC Int. 85:318',
  },
  // Only s_r, within one laboratory, is published; two laboratories lie no closer. Of 100 pairs of corn silage samples
  // from one pile, 30 lay more than 3 points apart and 5 more than 6 (report of 2020), which the higher limit agrees with.
  starch: { deviations: ['1.6', '2.2'], source: 'AOAC 996.11 extended, in one laboratory alone' },
  ndf: { deviations: ['0.37', '2.24'], source: 'AOAC 2002.04, Mertens 2002' },
  adf: { deviations: ['0.56', '2.44'], source: 'AOAC 973.18, Möller 2009' },
  'crude-protein': { deviations: ['0.52', '0.52'], source: 'AOAC 990.03, J AOAC 1989' },
};

/**
 * R at a figure, in points: for 58 % dry matter 2.8 × 0.44 % × 58 = 0.71456 to 2.8 × 0.77 % × 58 = 1.25048, and the
 * same for 42 % moisture; for NDF 1.036 to 6.272 at any. Undefined for a measure without a published limit.
 */
export function laboratoryScatter(measure: Measure, figure: Exact): Scatter | undefined {
  if (measure === 'moisture') return laboratoryScatter('dry-matter', subtract(HUNDRED, figure));
  const published = PUBLISHED[measure];
  if (!published) return undefined;
  const limit = (deviation: string) => {
    const points = published.ofValue ? multiply(percent(decimal(deviation)), figure) : decimal(deviation);
    return multiply(R_PER_DEVIATION, points);
  };
  const [low, high] = published.deviations;
  return { low: limit(low), high: limit(high), source: published.source };
}
