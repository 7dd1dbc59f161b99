/**
 * Reading and changing a draft by path.
 */
import { describe, expect, test } from 'vitest';
import {
  idOfPath,
  moved,
  parsePath,
  readAt,
  removeAt,
  renameReference,
  writeAt,
} from '../../src/app/builder/document-path.ts';
import { printPath } from '../../src/domain/agreement/problem.ts';

const DRAFT = {
  references: { corn: { unit: 'bushel' }, barley: { unit: 'tonne' } },
  price: [
    { label: 'Grain', at: { reference: 'corn', per: 'starch' } },
    { label: 'Feed', at: { reference: 'barley' } },
    { label: 'Hauling', rate: '-4.25' },
  ],
  tests: { ndf: { decimals: '1' } },
  acceptance: [{ on: 'moisture', below: '32' }],
};

describe('writing', () => {
  test('makes groups and lists on the way, and leaves the draft that it was given', () => {
    const before = structuredClone(DRAFT);
    const changed = writeAt(DRAFT, ['price', 2, 'above', 0, 'perPoint'], '-1');
    expect(readAt(changed, ['price', 2])).toEqual({
      label: 'Hauling',
      rate: '-4.25',
      above: [{ perPoint: '-1' }],
    });
    expect(DRAFT).toEqual(before);
    expect(readAt(changed, ['references'])).toBe(DRAFT.references);
  });

  test('nothing takes the key away', () => {
    expect(readAt(writeAt(DRAFT, ['price', 2, 'rate'], undefined), ['price', 2])).toEqual({
      label: 'Hauling',
    });
  });

  test('a key of its own name is not one that every object has', () => {
    expect(readAt(DRAFT, ['constructor'])).toBeUndefined();
    expect(readAt(DRAFT, ['price', 'length'])).toBe(3);
  });
});

describe('removing', () => {
  test('the last member of an optional group or list takes it along', () => {
    expect(removeAt(DRAFT, ['tests', 'ndf', 'decimals'])).not.toHaveProperty('tests');
    expect(removeAt(DRAFT, ['acceptance', 0])).not.toHaveProperty('acceptance');
    const deep = { conditions: { delivery: { place: 'the bunker' }, notes: 'none' } };
    expect(removeAt(deep, ['conditions', 'delivery', 'place'])).toEqual({ conditions: { notes: 'none' } });
    const money = {
      conditions: { payment: { discount: { percent: '2' } }, deductions: [{ label: 'Scale fee' }] },
    };
    const withoutDiscount = removeAt(money, ['conditions', 'payment', 'discount', 'percent']);
    expect(withoutDiscount).toEqual({ conditions: { deductions: [{ label: 'Scale fee' }] } });
    expect(removeAt(withoutDiscount, ['conditions', 'deductions', 0])).toEqual({});
  });

  test('what a price cannot be without stays, if empty, so that its fault has a place', () => {
    expect(removeAt({ price: [{ neutral: { from: '0' } }] }, ['price', 0, 'neutral', 'from'])).toEqual({
      price: [{ neutral: {} }],
    });
    expect(removeAt({ price: [{}] }, ['price', 0])).toEqual({ price: [] });
  });

  test('a member of a list lets the later ones move up', () => {
    expect(readAt(removeAt(DRAFT, ['price', 0]), ['price', 0, 'label'])).toBe('Feed');
  });

  test('what is not there is no fault', () => {
    expect(removeAt(DRAFT, ['conditions', 'notes'])).toEqual(DRAFT);
  });
});

test('a member moves to its place, and nowhere beyond the list', () => {
  expect(moved(['a', 'b', 'c'], 0, 2)).toEqual(['b', 'c', 'a']);
  expect(moved(['a', 'b', 'c'], 2, 1)).toEqual(['a', 'c', 'b']);
  expect(moved(['a', 'b'], 1, 2)).toEqual(['a', 'b']);
  expect(moved(['a', 'b'], 0, -1)).toEqual(['a', 'b']);
});

test('a reference that is called otherwise keeps its place and its lines', () => {
  const renamed = renameReference(DRAFT, 'corn', 'maize');
  expect(Object.keys(renamed['references'] as object)).toEqual(['maize', 'barley']);
  expect(readAt(renamed, ['price', 0, 'at'])).toEqual({ reference: 'maize', per: 'starch' });
  expect(readAt(renamed, ['price', 1, 'at', 'reference'])).toBe('barley');
});

describe('paths as the checks print them', () => {
  test.each([
    [[]],
    [['price', 2, 'above', 0, 'perPoint']],
    [['tests', 'dry-matter', 'decimals']],
    [['references', 'No. 2 corn "local"', 'floor']],
    [['references', 'a]b\\', 'floor']],
  ])('%j is read back', (path) => {
    expect(parsePath(printPath(path))).toEqual(path);
  });

  test.each(['document', '$price', '$.price[x]', '$.price[2', 'ticket'])('%s is none', (text) => {
    expect(parsePath(text)).toBeUndefined();
  });
});

test('places have ids that can stand in an address', () => {
  expect(idOfPath(['references', 'No. 2 corn', 'floor'])).toBe('formula-at-references-No__2_corn-floor');
});
