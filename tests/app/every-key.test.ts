/**
 * Every key of the agreement file can be reached by a field: the format's own shapes are walked, and each of their keys
 * must belong to a setting. A key that the format gains fails here until the builder asks for it.
 */
import { describe, expect, test } from 'vitest';
import { CONDITION_GROUPS } from '../../src/app/builder/condition-settings.ts';
import { headSettings, PARTS_ELSEWHERE } from '../../src/app/builder/head-settings.ts';
import { referenceSettings } from '../../src/app/builder/reference-settings.ts';
import { methodSettings, RETEST_SETTINGS, RETESTED } from '../../src/app/builder/retest-settings.ts';
import type { Setting } from '../../src/app/builder/setting.ts';
import { termSettings } from '../../src/app/builder/term-settings.ts';
import { RANGE_COLUMNS, ROUNDED_TESTS, SAMPLING } from '../../src/app/builder/test-settings.ts';
import { conditionsShape } from '../../src/domain/agreement/conditions.ts';
import {
  acceptanceShape,
  headShape,
  priceTermShape,
  referenceShape,
} from '../../src/domain/agreement/document.ts';
import { TESTED } from '../../src/domain/agreement/measures.ts';
import { QUESTIONED, retestShape } from '../../src/domain/agreement/retest-rules.ts';

/** What of a schema is looked at here. */
interface Shape {
  readonly def: {
    readonly type: string;
    readonly innerType?: Shape;
    readonly shape?: Readonly<Record<string, Shape>>;
    readonly element?: Shape;
    readonly options?: readonly Shape[];
  };
}

/** "price.method.rows[].moisture": the leaves of a schema, lists as "[]", each way of a union. */
function leaves(schema: unknown): string[] {
  const { def } = schema as Shape;
  if (def.innerType) return leaves(def.innerType);
  if (def.shape) {
    return Object.entries(def.shape).flatMap(([key, inner]) => leaves(inner).map((leaf) => `.${key}${leaf}`));
  }
  if (def.element) {
    const inner = leaves(def.element);
    return inner.every((leaf) => leaf === '') ? [''] : inner.map((leaf) => `[]${leaf}`);
  }
  if (def.options) return [...new Set(def.options.flatMap(leaves))];
  return [''];
}

function reached(settings: readonly Setting[]): Set<string> {
  const name = (path: Setting['path']) => path.map((key) => `.${key}`).join('');
  return new Set(
    settings.flatMap((setting) =>
      setting.kind === 'rows'
        ? setting.columns.map(({ path }) => `${name(setting.path)}[]${name(path)}`)
        : [name(setting.path)],
    ),
  );
}

function expectAll(schema: unknown, settings: readonly Setting[], apart: readonly string[] = []) {
  const found = reached(settings);
  const wanted = leaves(schema);
  expect(wanted.length).toBeGreaterThan(0);
  expect(wanted.filter((leaf) => !found.has(leaf) && !apart.includes(leaf))).toEqual([]);
  expect([...found].filter((leaf) => !wanted.includes(leaf))).toEqual([]);
}

test('the walk itself sees leaves, lists and unions', () => {
  const found = leaves(priceTermShape);
  expect(found).toContain('.method.rows[].moisture');
  expect(found).toContain('.above[].perPoint');
  expect(found).toContain('.after');
  expect(leaves(referenceShape)).toContain('.rule.default');
});

describe('each kind of price term', () => {
  const kinds = (priceTermShape as unknown as Shape).def.options ?? [];
  const about = { currency: 'USD', references: ['corn'] };

  test.each(
    kinds.map((shape) => {
      const literal = shape.def.shape?.['term'] as unknown as { readonly values: ReadonlySet<string> };
      return [[...literal.values].join(), shape] as const;
    }),
  )('%s', (term, shape) => {
    const variants =
      term === 'equivalent-bushels'
        ? ['dry-matter', 'shrink', 'table'].map((kind) => ({ term, method: { kind } }))
        : [{ term, per: 'short-ton', weight: 'as-fed', unit: 'money' }];
    expectAll(
      shape,
      variants.flatMap((variant) => termSettings(variant, about)),
      ['.term'],
    );
  });

  test('there are all six', () => {
    expect(kinds).toHaveLength(6);
  });
});

test('references, by each rule', () => {
  const kinds = ['fixed', 'delivery-day', 'average', 'month-average', 'seller-elects'];
  const settings = kinds.flatMap((kind) =>
    referenceSettings({ rule: { kind } }, 'USD').flatMap((group) => group.settings),
  );
  expectAll(referenceShape, settings);
});

test('ranges, tests and sampling', () => {
  expectAll(acceptanceShape, RANGE_COLUMNS);
  expect([...reached(ROUNDED_TESTS)]).toEqual(TESTED.map((measure) => `.${measure}.decimals`));
  expect([...reached(SAMPLING)]).toEqual(['.plan']);
});

test('the head of the file, and each of its parts', () => {
  const asked = [...reached(headSettings([]))].map((leaf) => leaf.slice(1));
  const known = [
    ...Object.keys(headShape.shape),
    'references',
    'price',
    'acceptance',
    'retest',
    'conditions',
  ];
  // `format` is one word that nobody chooses.
  expect(['format', ...asked, ...PARTS_ELSEWHERE].sort()).toEqual(known.sort());
});

test('conditions', () => {
  expectAll(
    conditionsShape,
    CONDITION_GROUPS.flatMap(({ settings }) => settings),
  );
});

test('retests, by each method', () => {
  const { measures, ...rest } = retestShape.shape;
  expect([...reached(RETEST_SETTINGS)].sort()).toEqual(
    Object.keys(rest)
      .map((key) => `.${key}`)
      .sort(),
  );
  const methods = (measures as unknown as { readonly def: { readonly valueType: Shape } }).def.valueType;
  const kinds = ['referee-stands', 'closest-two', 'median', 'iso-5725', 'astm-d3244', 'second-scale'];
  expectAll(
    methods,
    kinds.flatMap((method) => methodSettings(method === 'second-scale' ? 'weight' : 'starch', { method })),
  );
  expect(RETESTED.map(({ value }) => value)).toEqual([...QUESTIONED]);
});
