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
    'If less or more is delivered',
    'Priced again once the season is over',
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

const VOLUME = { amount: '1500', unit: 'short-ton', weight: 'as-fed' } as const;
const WITHIN = { ...VOLUME, tolerancePercent: '10' } as const;

const VOLUME_RULES: [Conditions, string][] = [
  [
    { volume: { ...WITHIN, shortfall: { owedBy: 'seller', from: 'range', rate: '12' } } },
    'If less than 1350 short tons as-fed (1500 less the 10 %) are delivered in all, Quillback Acres owes Tarn Hollow Dairy 12 USD for each short ton that is missing to the lower end of the range, 1350. Tons that are missing within the range cost nothing.',
  ],
  [
    { volume: { ...WITHIN, shortfall: { owedBy: 'buyer', from: 'amount', percentOfAverage: '5' } } },
    'Tarn Hollow Dairy owes Quillback Acres 5 % of the season’s average price for each short ton that is missing to the full agreed amount of 1500, not just to 1350. Within the range nothing is owed; but once the delivery is below it, the tons of the range are counted, too.',
  ],
  [
    { volume: { ...VOLUME, shortfall: { owedBy: 'seller', from: 'amount', rate: '12' } } },
    'If less than 1500 short tons as-fed are delivered in all, Quillback Acres owes Tarn Hollow Dairy 12 USD for each short ton that is missing to the agreed amount of 1500.',
  ],
  [
    { volume: { ...WITHIN, weight: 'dry-matter', surplus: { from: 'amount', rate: '3' } } },
    'If more than 1650 short tons of dry matter (1500 and the 10 % more) are delivered in all, 3 USD is taken off what Tarn Hollow Dairy owes Quillback Acres for each short ton beyond the agreed amount of 1500, not just beyond 1650.',
  ],
  [
    { volume: { ...WITHIN, surplus: { from: 'range', price: '58' } } },
    '58 USD is paid for each short ton beyond the upper end of the range, 1650. Tons within the range are paid as any other. This price stands in the place of the season’s average price: Tarn Hollow Dairy owes Quillback Acres the difference where it is more than the average, and Quillback Acres owes it to Tarn Hollow Dairy where it is less.',
  ],
  [
    { volume: { ...WITHIN, weight: 'dry-matter', surplus: { from: 'range', percentOfAverage: '5' } } },
    'The season’s average price is what all settled loads came to by the price formula, divided by their short tons of dry matter',
  ],
  [
    { volume: { ...WITHIN, weight: 'dry-matter', surplus: { from: 'range', percentOfAverage: '5' } } },
    'A load counts once its dry matter is known; until then it does not.',
  ],
  [
    { volume: { ...WITHIN, shortfall: { owedBy: 'seller', from: 'range', rate: '12' } } },
    'Have a licensed adviser read this.',
  ],
];

describe('sentences', () => {
  const rows: [Conditions, string][] = [
    [
      { volume: { amount: '1500', unit: 'tonne', weight: 'dry-matter', tolerancePercent: '10' } },
      'Quillback Acres commits to deliver and Tarn Hollow Dairy to take 1500 tonnes of dry matter, where up to 10 % more or less keeps the agreement.',
    ],
    ...VOLUME_RULES,
    [
      { trueUp: { prices: { from: '2026-09-01', to: '2026-11-30' }, tests: true } },
      'every settled load is priced again by the average of the quotes from 2026-09-01 to 2026-11-30 and by the season’s average test, both at once.',
    ],
    [
      { trueUp: { tests: true } },
      'What all loads come to by that, less what they have settled to, Tarn Hollow Dairy owes Quillback Acres; where it is below nothing, Quillback Acres owes it to Tarn Hollow Dairy.',
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
