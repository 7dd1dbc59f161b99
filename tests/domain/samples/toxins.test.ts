/**
 * Published levels of mould toxins. FDA, as read in state and trade copies: aflatoxin 20 µg/kg in corn for dairy
 * cattle and 0.5 µg/kg in milk; vomitoxin 10 mg/kg in grain for dairy cattle over four months with at most 5 in the
 * ration.
 */
import { expect, test } from 'vitest';
import { decimal } from '../../../src/domain/numbers/exact.ts';
import type { LabResult } from '../../../src/domain/samples/lab-result.ts';
import { toxinBreaches, toxinCautions } from '../../../src/domain/samples/toxins.ts';

function tested(aflatoxin: string | undefined, vomitoxin: string | undefined): LabResult {
  return {
    sample: 'S1',
    basis: 'as-fed',
    dryMatter: decimal('59.2'),
    reported: ['aflatoxin', 'vomitoxin'],
    figures: [aflatoxin, vomitoxin].map((figure) => (figure === undefined ? undefined : decimal(figure))),
  };
}

test.each([
  ['20', '10', 0],
  ['20.1', '10', 1],
  ['20', '10.01', 1],
  ['300', '11', 2],
  [undefined, undefined, 0],
])('aflatoxin %s µg/kg and vomitoxin %s mg/kg pass %s levels', (aflatoxin, vomitoxin, count) => {
  const result = tested(aflatoxin, vomitoxin);
  expect(toxinBreaches(result)).toHaveLength(count);
  expect(toxinCautions(result)).toHaveLength(count);
});

test('the words name the figure, the level and the body', () => {
  const result = tested('25', undefined);
  expect(toxinBreaches(result)).toEqual([
    'aflatoxin 25 µg/kg as-fed is above 20, the FDA action level in corn for dairy cattle',
  ]);
  expect(toxinCautions(result).join(' ')).toMatch(/FDA lets no milk hold more than 0\.5 µg\/kg/);
  expect(toxinCautions(tested(undefined, '12')).join(' ')).toMatch(/at most 5 mg\/kg/);
});
