/**
 * Generated agreements that carry conditions and rules for retests, and their words as one text.
 */
import { expect } from 'vitest';
import { checkAgreement } from '../../src/domain/agreement/check-agreement.ts';
import { checkConditions } from '../../src/domain/agreement/conditions.ts';
import type { Agreement } from '../../src/domain/agreement/document.ts';
import { checkRetestRules } from '../../src/domain/agreement/retest-rules.ts';
import { agreementInWords } from '../../src/domain/words/agreement-words.ts';
import { generateSeason } from '../oracle/generate-season.ts';
import { chanceFrom } from '../oracle/random.ts';
import { generateConditions, generateRetest } from './generate-blocks.ts';
import type { Json } from './json-places.ts';

export function wordsOf(agreement: Agreement): string {
  return agreementInWords(agreement)
    .flatMap(({ heading, paragraphs }) => [heading, ...paragraphs])
    .join('\n');
}

/** A generated agreement; two in three carry conditions, and two in three rules for retests. */
export function generatedAgreement(seed: number): Json {
  const document = generateSeason(seed, { loads: 5 }).agreement as unknown as Record<string, Json>;
  const chance = chanceFrom(seed + 1_000_000);
  const conditions = generateConditions(chance) as Json;
  const retest = generateRetest(chance) as Json;
  expect([...checkConditions(conditions), ...checkRetestRules(retest)], `seed ${seed}`).toEqual([]);
  return {
    ...document,
    ...(seed % 3 === 0 ? {} : { conditions }),
    ...(seed % 3 === 1 ? {} : { retest }),
  };
}

export function sound(document: Json, seed: number): Agreement {
  const { agreement } = checkAgreement(document);
  if (!agreement) throw new Error(`seed ${seed} gives no agreement`);
  return agreement;
}
