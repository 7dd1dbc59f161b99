/**
 * How much of an agreed volume is delivered, in words; figures worked by hand.
 */
import { expect, test } from 'vitest';
import { deliveredInWords } from '../../../src/domain/deliveries/delivered-volume.ts';
import { decimal } from '../../../src/domain/numbers/exact.ts';

const volume = { amount: '1500', unit: 'short-ton', weight: 'as-fed', tolerancePercent: '10' } as const;
const show = (figure: string) => figure.replace(/^(\d)(\d{3})\b/, '$1,$2');

test('so much of so much', () => {
  // 624,800 lb ÷ 2,000 lb = 312.4 short tons.
  expect(deliveredInWords({ volume, pounds: decimal('624800'), loads: 13, untested: 0, show })).toBe(
    '312.4 of 1,500 short tons as fed are delivered, in 13 loads.',
  );
});

test('nothing yet', () => {
  expect(deliveredInWords({ volume, pounds: decimal('0'), loads: 0, untested: 0, show })).toBe(
    'Nothing of the agreed 1,500 short tons as fed is delivered yet.',
  );
});

test('more than agreed, past the tolerance alone', () => {
  // 1,500 and 10 % are 1,650 short tons, 3,300,000 lb.
  const at = (pounds: string) =>
    deliveredInWords({ volume, pounds: decimal(pounds), loads: 70, untested: 0, show });
  expect(at('3300000')).toBe('1,650.0 of 1,500 short tons as fed are delivered, in 70 loads.');
  expect(at('3400000')).toBe(
    '1,700.0 of 1,500 short tons as fed are delivered, in 70 loads. That is 50.0 short tons more than was agreed, with 10 % tolerance.',
  );
});

test('loads without a dry matter are told, not counted', () => {
  const dry = { amount: '600', unit: 'tonne', weight: 'dry-matter' } as const;
  // 220,462.262 lb are 100.0 t: 1 t is 2,204.62262 lb.
  expect(deliveredInWords({ volume: dry, pounds: decimal('220462.262'), loads: 1, untested: 2, show })).toBe(
    '100.0 of 600 tonnes of dry matter are delivered, in one load. 2 loads more wait for their dry matter, and are not counted.',
  );
});
