/**
 * A weight as it is typed: thousands set apart as its reader sees them, and a question where it can be read two ways.
 */
import { expect, test } from 'vitest';
import { readWeight } from '../../src/app/loads/new/read-weight.ts';

const LB = { unit: 'lb', locale: 'en-US' };
const KG = { unit: 'kg', locale: 'de-DE' };

test.each([
  ['76640', LB, '76640'],
  ['76,640', LB, '76640'],
  ['1,076,640', LB, '1076640'],
  ['76640.5', LB, '76640.5'],
  ['24.040', KG, '24040'],
  ['24040,5', KG, '24040.5'],
  ['38.320', { unit: 'short-ton', locale: 'en-US' }, '38.320'],
])('%s is read as %s %s', (text, reading, weight) => {
  expect(readWeight(text, reading)).toEqual({ weight });
});

test.each([
  ['24.040', LB],
  ['24,040', KG],
])('%s is asked about', (text, reading) => {
  expect(readWeight(text, reading)).toEqual({ wrong: expect.stringMatching(/^can be read two ways/) });
});

test('what is no weight is left for the rules to refuse', () => {
  expect(readWeight('7,66', LB)).toEqual({ weight: '7,66' });
  expect(readWeight('heavy', LB)).toEqual({ weight: 'heavy' });
});
