/**
 * Over generated agreements of all terms, rules, units and currencies: advice can always be given, in words and soon
 * enough to be read while somebody types; equal versions have no changes in words, and changed ones have some.
 */
import { describe, expect, test } from 'vitest';
import { checkAgreement } from '../../src/domain/agreement/check-agreement.ts';
import type { Agreement } from '../../src/domain/agreement/document.ts';
import { agreementInWords } from '../../src/domain/words/agreement-words.ts';
import { changesInWords } from '../../src/domain/words/changes-in-words.ts';
import { ADVICE_KINDS, type AdviceKind } from '../../src/domain/worth/advice/advice.ts';
import { adviseOn } from '../../src/domain/worth/advise.ts';
import { assumedQuotes } from '../../src/domain/worth/assumed-quotes.ts';
import { exampleLoads } from '../../src/domain/worth/example-loads.ts';
import { priceExamples } from '../../src/domain/worth/price-examples.ts';
import { generateSeason } from '../oracle/generate-season.ts';

const AGREEMENTS = 250;

function generated(seed: number): Agreement {
  const { agreement } = checkAgreement(generateSeason(seed, { loads: 5 }).agreement);
  if (!agreement) throw new Error(`seed ${seed} gives no agreement`);
  return agreement;
}
const seeds = Array.from({ length: AGREEMENTS }, (_, index) => index + 1);

/** Seasons are generated without retests or conditions, and with shares that look like percents. */
const NOT_GENERATED: readonly AdviceKind[] = [
  'kept-too-short',
  'interest-without-due-date',
  'discount-after-due',
  'advance-above-price',
  'looks-like-fraction',
];

test('advice on any agreement is whole sentences, and takes no longer than a keystroke', () => {
  const seen = new Map<AdviceKind, number>();
  const times: number[] = [];
  for (const seed of seeds) {
    const agreement = generated(seed);
    const started = performance.now();
    const advice = adviseOn(agreement);
    times.push(performance.now() - started);
    for (const { kind, message } of advice) {
      seen.set(kind, (seen.get(kind) ?? 0) + 1);
      expect(message, `seed ${seed}, ${kind}`).toMatch(/^[\p{Lu}“].*[.?]$/u);
      expect(message, `seed ${seed}, ${kind}`).not.toMatch(/undefined|NaN|null|\[object/);
    }
  }
  for (const kind of ADVICE_KINDS.filter((one) => !NOT_GENERATED.includes(one))) {
    expect(seen.get(kind) ?? 0, kind).toBeGreaterThan(0);
  }
  const median = times.toSorted((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;
  expect(median).toBeLessThan(50);
});

test('example loads lack no figure that any agreement needs', () => {
  const reasons = new Set<string>();
  for (const seed of seeds) {
    const agreement = generated(seed);
    const loads = exampleLoads({ feed: agreement.feed, tests: [], unit: 'kg' });
    for (const { price } of priceExamples(agreement, { loads, quotes: assumedQuotes(agreement) })) {
      if (price.impossible !== undefined) reasons.add(price.impossible);
    }
  }
  // What is left are the formula's own gaps: a table that ends, and parts that leave less than nothing.
  for (const reason of reasons) expect(reason).toMatch(/outside the table|less than nothing/);
});

describe('changes in words', () => {
  test('are none between equal agreements', () => {
    for (const seed of seeds) expect(changesInWords(generated(seed), generated(seed)), `${seed}`).toEqual([]);
  });

  test('are some wherever the words differ, and hold nothing that both versions say', () => {
    let changed = 0;
    for (const seed of seeds) {
      const [before, after] = [generated(seed), generated(seed + 1)];
      const variants = [after, ...bent(before)];
      for (const variant of variants) {
        if (JSON.stringify(agreementInWords(variant)) === JSON.stringify(agreementInWords(before))) continue;
        changed++;
        const changes = changesInWords(before, variant);
        expect(changes.length, `seed ${seed}`).toBeGreaterThan(0);
        expect(new Set(changes.map(({ heading }) => heading)).size).toBe(changes.length);
        for (const change of changes) expect([...change.before, ...change.after]).not.toEqual([]);
      }
    }
    expect(changed).toBeGreaterThan(AGREEMENTS * 4);
  });
});

/** The agreement with one thing changed each time. */
function bent(agreement: Agreement): Agreement[] {
  const [first, ...others] = agreement.price;
  if (!first) return [];
  const label = { ...first, label: `${first.label}, altered` };
  return [
    { ...agreement, price: [label, ...others] },
    { ...agreement, price: [...agreement.price, { ...first, label: 'Once more' }] },
    { ...agreement, price: [...others, first] },
    { ...agreement, seller: `${agreement.seller} & Daughters` },
    { ...agreement, timeZone: 'Pacific/Auckland' },
    { ...agreement, acceptance: [{ on: 'ph', above: '4.875' }] },
    { ...agreement, conditions: { notes: 'Weekdays only' } },
  ];
}
