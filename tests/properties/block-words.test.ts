/**
 * Conditions and rules for retests of a known shape are said in sentences, and no figure, text or choice of them can be
 * changed without the words changing too. A block of another shape is said as it stands.
 */
import { expect, test } from 'vitest';
import { checkConditions } from '../../src/domain/agreement/conditions.ts';
import { checkRetestRules } from '../../src/domain/agreement/retest-rules.ts';
import { BLOCK_CHOICES, BLOCKS } from './block-choices.ts';
import { generatedAgreement, sound, wordsOf } from './generated-agreement.ts';
import { changed, type Json, scalars } from './json-places.ts';

const NUMBER = /^-?\d+(\.\d+)?$/;

function blockProblems(document: Json): number {
  const { conditions = {}, retest } = document as { readonly [key: string]: Json };
  const ofRetest = retest === undefined ? [] : checkRetestRules(retest);
  return checkConditions(conditions).length + ofRetest.length;
}

/** Other values that may stand in a block in the place of one, so that the block keeps its shape. */
function blockAlternatives(value: string | boolean): readonly (string | boolean)[] {
  if (typeof value === 'boolean') return [!value];
  if (/^\d{4}-/.test(value)) return [value.replace(/\d$/, (digit) => (digit === '0' ? '1' : '0'))];
  if (NUMBER.test(value)) return [`1${value}`, `${value}${value.includes('.') ? '' : '.'}4`];
  const others = BLOCK_CHOICES.filter((list) => list.includes(value)).flat();
  return others.length > 0 ? others.filter((other) => other !== value) : [`${value} other`];
}

test('change whenever a block that keeps its shape changes, in each key and each choice', () => {
  const changes = new Map<string, number>();
  for (let seed = 1; seed <= 300; seed++) {
    const document = generatedAgreement(seed);
    const words = wordsOf(sound(document, seed));
    for (const { path, value } of scalars(document)) {
      if (!BLOCKS.includes(path[0])) continue;
      for (const other of blockAlternatives(value)) {
        const altered = changed(document, path, other);
        if (blockProblems(altered) > 0) continue;
        const place = path.filter((key) => typeof key === 'string').join('.');
        const kind = typeof value === 'boolean' || BLOCK_CHOICES.some((list) => list.includes(value));
        const key = place.replace(/measures\.[a-z-]+/, 'measures');
        const what = kind ? `${key} to ${other}` : key;
        changes.set(what, (changes.get(what) ?? 0) + 1);
        expect(wordsOf(sound(altered, seed)), `seed ${seed}, ${place}: ${value} to ${other}`).not.toBe(words);
      }
    }
  }
  for (const what of TRIED_IN_BLOCKS) expect(changes.get(what), what).toBeGreaterThan(2);
});

const TRIED_IN_BLOCKS = [
  ...['amount', 'unit to tonne', 'weight to dry-matter', 'weight to as-fed', 'tolerancePercent'].map(
    (key) => `conditions.volume.${key}`,
  ),
  ...[
    'shortfall.owedBy to seller',
    'shortfall.owedBy to buyer',
    'shortfall.from to range',
    'shortfall.from to amount',
    'shortfall.rate',
    'shortfall.percentOfAverage',
    'surplus.from to range',
    'surplus.from to amount',
    'surplus.rate',
    'surplus.percentOfAverage',
    'surplus.price',
  ].map((key) => `conditions.volume.${key}`),
  'conditions.trueUp.prices.from',
  'conditions.trueUp.prices.to',
  ...['from', 'to', 'place', 'hauledBy to seller', 'hauledBy to buyer'].map(
    (key) => `conditions.delivery.${key}`,
  ),
  'conditions.quality',
  ...['by to seller', 'by to both together', 'scale', 'legalForTrade to true', 'legalForTrade to false'].map(
    (key) => `conditions.weighing.${key}`,
  ),
  'conditions.samplingDuty.by to buyer',
  'conditions.samplingDuty.how',
  ...['name', 'dryMatterMethod', 'starchMethod'].map((key) => `conditions.laboratory.${key}`),
  ...['netDays', 'from to delivery', 'from to settlement', 'from to invoice', 'text'].map(
    (key) => `conditions.payment.${key}`,
  ),
  ...['load', 'day', 'week', 'month', 'season'].map((key) => `conditions.payment.invoices to ${key}`),
  ...[
    'dayOfMonth',
    'deferredTo',
    'issuedBy to seller',
    'issuedBy to buyer',
    'interest.percentPerYear',
    'interest.dayCount to actual/365',
    'interest.dayCount to actual/360',
    'interest.dayCount to 30/360',
    'discount.percent',
    'discount.withinDays',
    'returnedPaymentFee',
  ].map((key) => `conditions.payment.${key}`),
  ...[
    'sharePercent',
    'rate',
    'per to short-ton',
    'per to kg',
    'per to load',
    'byNewestQuote to true',
    'byNewestQuote to false',
  ].map((key) => `conditions.advance.${key}`),
  ...[
    'label',
    'rate',
    'per to load',
    'per to percent',
    'per to lb',
    'weight to as-fed',
    'weight to dry-matter',
    'poundsPerBushel',
    'payee',
  ].map((key) => `conditions.deductions.${key}`),
  'conditions.lienHolders.name',
  ...[
    'feedsToOwnAnimals to true',
    'feedsToOwnAnimals to false',
    'yearlyVolume',
    'unit to tonne',
    'licence',
  ].map((key) => `conditions.buyerStatement.${key}`),
  'conditions.governingLaw',
  'conditions.notes',
  'retest.askWithinDays',
  'retest.keptDays',
  'retest.referee',
  'retest.testWithinDays',
  ...['first-stands', 'mean-of-others'].map((what) => `retest.ifNoReferee to ${what}`),
  ...['asker-unless-moved', 'split', 'further-from-referee'].map((fee) => `retest.fee to ${fee}`),
  ...['tolerance', 'repeatability', 'reproducibility', 'toleranceDivisions'].map(
    (key) => `retest.measures.${key}`,
  ),
  ...['method to median', 'method to closest-two', 'test to cheap', 'test to dear'].map(
    (key) => `retest.measures.${key}`,
  ),
  ...['median', 'mean', 'first-stands', 'referee-stands'].map((tie) => `retest.measures.tie to ${tie}`),
];

test('a block of another shape stands as it is', () => {
  const document = generatedAgreement(3) as { readonly [key: string]: Json };
  const conditions = { payment: { netDays: '30' }, parking: { lot: 'west', lit: true } };
  const words = wordsOf(sound({ ...document, conditions, retest: { who: ['one', 'other'] } }, 3));
  for (const line of ['payment, netDays: 30', 'parking, lot: west', 'parking, lit: yes', 'who 2: other']) {
    expect(words.split('\n')).toContain(line);
  }
});
