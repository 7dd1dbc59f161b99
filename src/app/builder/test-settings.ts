/**
 * What is asked about samples, the rounding of tests, and the ranges outside of which a load may be refused.
 */
import { MEASURE_NAMES, TESTED } from '../../domain/agreement/measures.ts';
import { opening } from '../place/sentence.ts';
import { MEASURE_OPTIONS, measureLabel, PLAN_WORDS } from './format-words.ts';
import { type OneSetting, optionsOf, type Setting } from './setting.ts';

/** From the block `sampling`. */
export const SAMPLING: readonly Setting[] = [
  {
    kind: 'list',
    path: ['plan'],
    label: 'Samples',
    options: optionsOf(PLAN_WORDS),
    without: `${PLAN_WORDS['per-load']}, as usual`,
  },
];

/** From the block `tests`. */
export const ROUNDED_TESTS: readonly Setting[] = TESTED.map((measure) => ({
  kind: 'figure',
  path: [measure, 'decimals'],
  // pH is written so.
  label: measure === 'ph' ? MEASURE_NAMES.ph : opening(measureLabel(measure)),
  unit: 'decimals',
}));

/** From one range. */
export const RANGE_COLUMNS: readonly OneSetting[] = [
  { kind: 'list', path: ['on'], label: 'By the test of', options: MEASURE_OPTIONS },
  { kind: 'figure', path: ['below'], label: 'Below', signed: true },
  { kind: 'figure', path: ['above'], label: 'Or above', signed: true },
];

/** From the list `acceptance`. */
export const RANGES: Setting = {
  kind: 'rows',
  path: [],
  label: 'The buyer may refuse a load',
  row: 'range',
  hint: 'The limits themselves are inside. A load outside waits until the buyer chooses.',
  columns: RANGE_COLUMNS,
  empty: {},
};
