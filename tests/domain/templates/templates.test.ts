/**
 * What every template gives, for every feed, in both unit systems and in currencies of 0, 2 and 3 decimals: a sound
 * agreement that raises no warning, with conditions and retests that are said in sentences.
 */
import { describe, expect, test } from 'vitest';
import { checkAgreement } from '../../../src/domain/agreement/check-agreement.ts';
import { checkConditions, conditionsOf } from '../../../src/domain/agreement/conditions.ts';
import { FEED_KINDS } from '../../../src/domain/agreement/measures.ts';
import { readerUnits } from '../../../src/domain/agreement/reader-units.ts';
import { checkRetestRules, retestRulesOf } from '../../../src/domain/agreement/retest-rules.ts';
import { warnOfPrice } from '../../../src/domain/settlement/makes-sense.ts';
import { STARCH_AND_FIBRE } from '../../../src/domain/templates/starch-and-fibre.ts';
import { STARTING } from '../../../src/domain/templates/starting-figures.ts';
import { TEMPLATES } from '../../../src/domain/templates/templates.ts';
import { BASICS, METRIC, priceByTemplate } from './priced-by-template.ts';
import { wordsBy } from './words-by-template.ts';

const CASES = TEMPLATES.flatMap((template) =>
  FEED_KINDS.flatMap((feed) =>
    [BASICS, METRIC, { ...METRIC, currency: 'JPY' }, { ...BASICS, currency: 'KWD' }].map((basics) => ({
      name: `${template.id}, ${feed}, ${basics.metric ? 'metric' : 'pounds'}, ${basics.currency}`,
      template,
      basics: { ...basics, feed },
    })),
  ),
);

describe('an agreement as drawn', () => {
  test.each(CASES)('$name', ({ template, basics }) => {
    const document = template.draw(basics);
    const { agreement, problems } = checkAgreement(document);
    expect(problems).toEqual([]);
    if (!agreement) throw new Error('no agreement');
    expect(warnOfPrice(agreement)).toEqual([]);
    expect(checkConditions(document['conditions'])).toEqual([]);
    expect(checkRetestRules(document['retest'])).toEqual([]);
    expect(conditionsOf(agreement)).toEqual(document['conditions']);
    expect(retestRulesOf(agreement)).toEqual(document['retest']);
    const { id, seller, buyer, feed, currency, timeZone, metric } = basics;
    expect(agreement).toMatchObject({ id, seller, buyer, feed, currency, timeZone });
    expect(readerUnits(agreement).ton).toBe(metric ? 'tonne' : 'short-ton');
    expect(JSON.parse(JSON.stringify(document))).toEqual(document);
  });

  test.each(CASES)('prices a load of the feed: $name', ({ template, basics }) => {
    const usual = STARTING[basics.feed];
    const moisture = (Number(usual.accepted.below ?? '12') + Number(usual.accepted.above)) / 2;
    const load = {
      basics,
      corn: basics.metric ? '180' : '4.20',
      hay: '95',
      net: '20000',
      dryMatter: String(100 - moisture),
      starch: usual.starch.from,
    };
    const { status, total } = priceByTemplate(template, load);
    expect(status).toBe('settled');
    expect(Number(total)).toBeGreaterThan(0);
  });
});

describe('what is said of a template', () => {
  test('has a name and an id of its own', () => {
    expect(new Set(TEMPLATES.map(({ id }) => id)).size).toBe(TEMPLATES.length);
    expect(new Set(TEMPLATES.map(({ name }) => name)).size).toBe(TEMPLATES.length);
  });

  test.each(TEMPLATES)('$id: when it suits and what it leaves to luck, a sentence each', (template) => {
    expect(template.suits).toMatch(/^Suits [^.]+\.$/);
    expect(template.leavesToLuck).toMatch(/^Leaves to luck [^.]+\.$/);
  });

  test('two templates never give the same price words', () => {
    const words = TEMPLATES.map((template) => wordsBy(template));
    expect(new Set(words).size).toBe(TEMPLATES.length);
  });
});

describe('the words around a formula', () => {
  const words = wordsBy(STARCH_AND_FIBRE);
  const sentences = [
    'Quillback Acres sells and Tarn Hollow Dairy buys whole-ear corn (the ground ear: grain, cob and husk; also called snaplage).',
    'A load is outside the agreed ranges with moisture (% as-fed) below 32 or above 45.',
    'Quillback Acres or Tarn Hollow Dairy may question a figure that is named here within 7 days after it was reported.',
    'The referee is a second laboratory that both sides name before the first load.',
    'Trucks are weighed by Tarn Hollow Dairy.',
    'Samples are taken by Quillback Acres and Tarn Hollow Dairy together.',
    'On wet fermented corn the method moves the figure',
    'Tarn Hollow Dairy pays Quillback Acres at the latest 14 days after a load is settled.',
  ];
  test.each(sentences)('%s', (sentence) => {
    expect(words).toContain(sentence);
  });

  test('each caution stands once, with the body that publishes it', () => {
    expect(words.match(/Kansas State University/g)).toHaveLength(1);
    expect(words.match(/7 USC 1631/g)).toHaveLength(1);
    expect(words.match(/licensed adviser/g)).toHaveLength(1);
  });
});
