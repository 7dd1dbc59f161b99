/**
 * Faults of a draft in plain words, at the places that people see.
 */
import { describe, expect, test } from 'vitest';
import {
  sentProblems,
  shownProblems,
  strayProblems,
  tellProblems,
} from '../../src/app/builder/builder-problems.ts';
import { checkDraft } from '../../src/app/builder/check-draft.ts';
import { placeInWords } from '../../src/app/builder/place-words.ts';
import { beginTerm } from '../../src/app/builder/term-fitting.ts';
import { termSettings } from '../../src/app/builder/term-settings.ts';
import { TEMPLATES } from '../../src/domain/templates/templates.ts';

const HEAD = {
  format: 'huskledger-agreement/1',
  id: 'A-1',
  seller: 'Quillback Acres',
  buyer: 'Tarn Hollow Dairy',
  feed: 'whole-ear-corn',
  currency: 'USD',
  timeZone: 'America/Boise',
  references: {},
};
const TON = { reference: undefined, ton: 'short-ton' } as const;

function told(draft: Readonly<Record<string, unknown>>): string[] {
  return tellProblems(checkDraft(draft).problems).map(
    ({ path, message }) => `${placeInWords(path, draft)} ${message}`,
  );
}

describe('faults are told by the names of fields, without the file’s quotes', () => {
  test('a line that was just added', () => {
    expect(told({ ...HEAD, price: [beginTerm('flat', TON)] })).toEqual([
      'Line 1 (Flat rate), “Rate” is missing: a number like 4.25',
    ]);
    expect(told({ ...HEAD, price: [beginTerm('limit', TON)] })).toEqual([
      'Line 1 (Least and most) needs the least, the most or both',
    ]);
    expect(told({ ...HEAD, price: [beginTerm('schedule', TON)] })).toEqual([
      'Line 1 (Fibre above range), “Nothing changes up to” is missing: a number like 4.25',
      'Line 1 (Fibre above range), “Steps above the range”, step 1, “Add for each point” is missing: a number like 4.25',
    ]);
  });

  test('figures that are none, choices that are open, keys that are not known', () => {
    const price = [
      { term: 'flat', label: 'Hauling', rate: '4,25', per: 'short-ton' },
      { term: 'flat', label: 'Bonus', rate: '1', weight: 'as-fed', colour: 'red' },
    ];
    expect(told({ ...HEAD, price, conditions: { volume: { amount: '-5' } } })).toEqual([
      'Line 1 (Hauling), “Rate” must be a number like 4.25; found "4,25"',
      'Line 1 (Hauling), “Weighed as” has to be chosen',
      'Line 2 (Bonus), “For each” has to be chosen',
      'Line 2 (Bonus), colour is not a known key; remove it or check its spelling',
      'Conditions, “Amount agreed” must be a number like 4.25, above 0; found "-5"',
      'Conditions, “Unit” has to be chosen',
      'Conditions, “Weighed as” has to be chosen',
    ]);
  });

  test('an empty draft', () => {
    expect(told({})).toContain('The price is missing');
    expect(told({})).toContain('Number of the agreement is missing');
  });

  test('no message keeps the file’s own words for numbers', () => {
    for (const sentence of told({ ...HEAD, references: { corn: { rule: {} } }, price: [{}], retest: {} })) {
      expect(sentence).not.toMatch(/in quotes|digits, at most|\{ … \}|\[ … \]/);
    }
  });
});

test('each template is whole as it is drawn', () => {
  for (const template of TEMPLATES) {
    const { id, seller, buyer, currency, timeZone } = HEAD;
    const draft = template.draw({
      id,
      seller,
      buyer,
      feed: 'whole-ear-corn',
      currency,
      timeZone,
      metric: false,
    });
    expect(told(draft)).toEqual([]);
  }
});

describe('what came back with a refusal', () => {
  const problems = [
    { field: '$.price[0].rate', message: 'is too high' },
    { field: 'document', message: 'is not JSON' },
    { message: 'something else' },
  ];

  test('stands at its place until that is changed', () => {
    const sent = { price: [{ rate: '9', label: 'Hauling' }] };
    const found = [{ path: ['price', 0, 'rate'], message: 'is too high' }];
    expect(sentProblems(problems, { sent, now: sent })).toEqual(found);
    const elsewhere = { price: [{ rate: '9', label: 'Haul' }] };
    expect(sentProblems(problems, { sent, now: elsewhere })).toEqual(found);
    expect(sentProblems(problems, { sent, now: { price: [{ rate: '8' }] } })).toEqual([]);
  });

  test('and what the page finds itself is told once', () => {
    const problem = { path: ['id'], message: 'is missing' };
    expect(tellProblems([problem, { ...problem, path: ['id'] }])).toEqual([problem]);
  });
});

test('faults of a part are shown by its settings, or stray', () => {
  const term = { term: 'schedule', per: 'load', unit: 'money' };
  const part = { at: ['price', 2], settings: termSettings(term, { currency: 'USD', references: [] }) };
  const at = (...path: (string | number)[]) => ({ path, message: 'is wrong' });
  const shown = [
    at('price', 2, 'label'),
    at('price', 2, 'above', 0, 'perPoint'),
    at('price', 2, 'above'),
    at('price', 2, 'above', 1),
  ];
  const stray = [at('price', 2), at('price', 2, 'colour'), at('price', 2, 'above', 0, 'colour')];
  const others = [at('price', 1, 'label'), at('price')];
  const all = [...shown, ...stray, ...others];
  expect(shownProblems(all, part)).toEqual(shown);
  expect(strayProblems(all, part)).toEqual(stray);
});
