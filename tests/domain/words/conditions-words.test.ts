/**
 * The conditions of an agreement in words: headings, names of the parties in the place of their sides, and cautions.
 */
import { describe, expect, test } from 'vitest';
import { type Conditions, checkConditions } from '../../../src/domain/agreement/conditions.ts';
import { conditionsInWords } from '../../../src/domain/words/conditions-words.ts';
import { FULL_CONDITIONS } from '../agreement/sample-blocks.ts';

const PARTIES = { seller: 'Quillback Acres', buyer: 'Tarn Hollow Dairy', currency: 'USD' };

function said(conditions: Conditions): string {
  return conditionsInWords(conditions, PARTIES)
    .flatMap(({ paragraphs }) => paragraphs)
    .join('\n');
}

test('a heading for each part that says something, and none for the others', () => {
  expect(checkConditions(FULL_CONDITIONS)).toEqual([]);
  const headings = conditionsInWords(FULL_CONDITIONS as Conditions, PARTIES).map(({ heading }) => heading);
  expect(headings).toEqual([
    'How much, when and where',
    'Quality',
    'Weighing and sampling',
    'Laboratory and methods',
    'Payment',
    'Advances',
    'Deductions',
    'Lenders who are joint payees',
    'What the buyer states',
    'Governing law',
    'Other conditions',
  ]);
  expect(conditionsInWords({}, PARTIES)).toEqual([]);
  expect(conditionsInWords({ notes: 'x' }, PARTIES)).toEqual([
    { heading: 'Other conditions', paragraphs: ['x.'] },
  ]);
});

describe('sentences', () => {
  const rows: [Conditions, string][] = [
    [
      { volume: { amount: '1500', unit: 'tonne', weight: 'dry-matter', tolerancePercent: '10' } },
      'Quillback Acres commits to deliver and Tarn Hollow Dairy to take 1500 tonnes of dry matter, where up to 10 % more or less keeps the agreement.',
    ],
    [{ delivery: { from: '2026-09-10' } }, 'Loads are delivered from 2026-09-10 on.'],
    [{ delivery: { to: '2026-10-05' } }, 'Loads are delivered by 2026-10-05, that day included.'],
    [{ delivery: { hauledBy: 'buyer' } }, 'Tarn Hollow Dairy hauls.'],
    [{ weighing: { by: 'Culvert Road Weighers' } }, 'Trucks are weighed by Culvert Road Weighers.'],
    [
      { samplingDuty: { by: 'both together' } },
      'Samples are taken by Quillback Acres and Tarn Hollow Dairy together.',
    ],
    [{ laboratory: { name: 'Sedge Lane Laboratory' } }, 'so both sides should name one.'],
    [
      { payment: { netDays: '1', from: 'delivery' } },
      'Tarn Hollow Dairy pays Quillback Acres at the latest 1 day after a load is delivered.',
    ],
    [
      { lienHolders: [{ name: 'Third Furrow Lending' }, { name: 'Harrow Mutual' }] },
      'are joint payees: Tarn Hollow Dairy makes each payment out to Quillback Acres and to Third Furrow Lending and Harrow Mutual together.',
    ],
    [
      { buyerStatement: { feedsToOwnAnimals: false } },
      'Tarn Hollow Dairy states that it does not buy this feed for its own animals alone.',
    ],
    [{ quality: 'No stones!' }, 'No stones!'],
  ];
  test.each(rows)('%j', (conditions, sentence) => {
    expect(checkConditions(conditions)).toEqual([]);
    expect(said(conditions)).toContain(sentence);
    expect(said(conditions)).not.toContain('!.');
  });
});

describe('the caution at a silage face (Kansas State University, read)', () => {
  test('stands once, with sampling', () => {
    expect(said(FULL_CONDITIONS as Conditions).match(/three times its height/g)).toHaveLength(1);
  });

  test('and nowhere else', () => {
    const { samplingDuty: _, ...rest } = FULL_CONDITIONS as Conditions;
    expect(said(rest)).not.toContain('three times its height');
  });
});
