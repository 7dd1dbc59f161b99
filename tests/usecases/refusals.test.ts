/**
 * Every refusal on the list is provoked by some test, and has its place among the outcomes.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { REFUSAL_CODES, REFUSAL_OUTCOMES } from '../../src/usecases/refusal.ts';

const HERE = 'tests/usecases';
const TESTS = readdirSync(HERE)
  .filter((name) => name.endsWith('.test.ts') && name !== 'refusals.test.ts')
  .map((name) => readFileSync(join(HERE, name), 'utf8'))
  .join('\n');

test.each(REFUSAL_CODES)('%s', (code) => {
  // As `toBe('…')`, however the formatter breaks it.
  expect(new RegExp(`toBe\\(\\s*'${code}'|'${code}',?\\s*\\)`).test(TESTS), 'provoked').toBe(true);
  expect(REFUSAL_OUTCOMES[code].http).toBeGreaterThanOrEqual(400);
});
