/**
 * How a question runs through its rounds, day by day.
 */
import { expect, test } from 'vitest';
import type { DecidingMethod } from '../../../src/domain/agreement/retest-rules.ts';
import { type Entered, entered, standsOn, told } from './entered-figures.ts';

const REFEREE: DecidingMethod = { method: 'referee-stands', tolerance: '1.0' };
const ASTM: DecidingMethod = { method: 'astm-d3244', reproducibility: '2.0', tie: 'median' };
const SCALE: DecidingMethod = { method: 'second-scale' };

const on = (figures: readonly Entered[], today: string, method: DecidingMethod = REFEREE) =>
  told(standsOn({ method }, figures.filter(([, , at]) => at <= today).map(entered), today));

test('a figure that was not called for neither counts nor gives time', () => {
  const sides: readonly Entered[] = [
    ['seller', '58', '2026-10-10', 'confirm'],
    ['buyer', '50', '2026-10-11', 'contest', '2026-10-14'],
    ['laboratory', '57', '2026-10-12'],
  ];
  expect(on(sides, '2026-10-15')).toBe('referee 1 from 2026-10-01 to 2026-10-15');
  expect(on(sides, '2026-10-16')).toBe('54 no-referee 2026-10-16');
  // Nor one that comes before its round: the referee of ASTM D3244 is asked when both have tested twice.
  const early: readonly Entered[] = [
    ['referee', '75', '2026-10-02', 'confirm'],
    ['buyer', '68.9', '2026-10-03', 'confirm'],
    ['seller', '71.0', '2026-10-03', 'confirm'],
    ['buyer', '69.0', '2026-10-04', 'confirm'],
    ['seller', '71.2', '2026-10-04', 'confirm'],
  ];
  expect(on(early, '2026-10-05', ASTM)).toBe('referee 1 from 2026-10-04 to 2026-10-18');
  const other: Entered = ['referee', '54999', '2026-10-02', 'confirm'];
  const weights = [other, ['second-scale', '55000', '2026-10-03', 'confirm'] as const].map(entered);
  expect(told(standsOn({ method: SCALE, first: '54000' }, weights, '2026-10-03'))).toBe(
    '55000 second-moved-it 2026-10-03',
  );
});
