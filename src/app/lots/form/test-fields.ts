/**
 * Fields of a lot's tests: a fold for each that is there, and some more to fill in. One whose fields are all emptied goes.
 */
import { MEASURE_UNITS, TESTED, type Tested } from '../../../domain/agreement/measures.ts';
import type { LotTest } from '../../../domain/lots/lot-document.ts';
import type { LotView } from '../../../usecases/lots/read-lot-view.ts';
import type { Field, InputField } from '../../forms/field.ts';
import { measureTitle } from '../lot-words.ts';

/** Folds for new tests; after saving there are as many again. */
const NEW_TESTS = 3;

/** What of a test is asked for, each under `tests.N.` and this. */
export const TEST_KEYS = ['on', 'laboratory', 'method', ...TESTED, 'file'] as const;

export function testFields(tests: readonly LotTest[], files: LotView['files']): readonly Field[] {
  const slots = [...tests, ...Array.from({ length: NEW_TESTS }, () => undefined)];
  return slots.map((test, index): Field => {
    const number = index + 1;
    const summary = test
      ? `Test ${number}: ${test.on}, ${test.laboratory}, ${test['dry-matter']} % dry matter`
      : `Add test ${number}`;
    return { kind: 'more', summary, fields: fieldsOf(`tests.${index}`, test, files) };
  });
}

function fieldsOf(at: string, test: LotTest | undefined, files: LotView['files']): readonly InputField[] {
  const value = (key: (typeof TEST_KEYS)[number]) => {
    const text = test?.[key];
    return text === undefined ? {} : { value: text };
  };
  return [
    { kind: 'date', name: `${at}.on`, label: 'Tested on', ...value('on') },
    { kind: 'text', name: `${at}.laboratory`, label: 'Laboratory', ...value('laboratory') },
    { kind: 'text', name: `${at}.method`, label: 'Method', optional: true, ...value('method') },
    ...TESTED.map((measure) => ({ ...figureField(at, measure), ...value(measure) })),
    ...(files.length === 0
      ? []
      : [
          {
            kind: 'list' as const,
            name: `${at}.file`,
            label: 'Its report',
            ...value('file'),
            options: [
              { value: '', label: 'none attached' },
              ...files.map(({ id, name }) => ({ value: id, label: name })),
            ],
          },
        ]),
  ];
}

function figureField(at: string, measure: Tested): InputField {
  const unit = MEASURE_UNITS[measure];
  return {
    kind: 'text',
    name: `${at}.${measure}`,
    label: measureTitle(measure),
    keys: 'decimal',
    ...(unit === '' ? {} : { unit }),
    ...(measure === 'dry-matter' ? {} : { optional: true }),
  };
}
