/**
 * What is asked about questions and retests: how long one may ask, who keeps which part of a sample, who pays, and how
 * each measure is decided.
 */
import { MEASURE_NAMES } from '../../domain/agreement/measures.ts';
import { QUESTIONED } from '../../domain/agreement/retest-rules.ts';
import { readAt } from './document-path.ts';
import { type Option, optionsOf, type Setting } from './setting.ts';

/** Paths are from the block `retest`. */
export const RETEST_SETTINGS: readonly Setting[] = [
  { kind: 'figure', path: ['askWithinDays'], label: 'A figure may be questioned for', unit: 'days' },
  { kind: 'figure', path: ['keptDays'], label: 'Parts of a sample are kept for', unit: 'days' },
  {
    kind: 'ticks',
    path: ['parts'],
    label: 'A sealed part goes to',
    options: optionsOf({
      laboratory: 'the laboratory',
      seller: 'the seller',
      buyer: 'the buyer',
      referee: 'the referee',
    }),
  },
  { kind: 'text', path: ['referee'], label: 'Referee laboratory' },
  {
    kind: 'figure',
    path: ['testWithinDays'],
    label: 'A test is to be reported within',
    unit: 'days',
    hint: 'After it is called for. If it is not, the first figure stands.',
  },
  {
    kind: 'list',
    path: ['ifNoReferee'],
    label: 'Where the referee does not report in time',
    options: optionsOf({
      'first-stands': 'the first figure stands',
      'mean-of-others': 'the mean of the figures that it was to judge counts',
    }),
    without: 'not said: the first stands',
  },
  {
    kind: 'list',
    path: ['fee'],
    label: 'The fee of a retest is paid by',
    options: optionsOf({
      'asker-unless-moved': 'whoever asked, unless the figure moved',
      split: 'both, half each',
      'further-from-referee': 'the side whose figure was further from the referee’s',
    }),
    without: 'not said',
  },
];

/** What a retest can be about. */
export const RETESTED: readonly Option[] = QUESTIONED.map((measure) => ({
  value: measure,
  label: measure === 'weight' ? 'net weight' : MEASURE_NAMES[measure],
}));

const METHODS = optionsOf({
  'referee-stands': 'the referee’s figure, where it differs by more than a tolerance',
  'closest-two': 'the mean of the closest two of three',
  median: 'the middle one of three',
  'iso-5725': 'the check of ISO 5725-6 by r and R',
  'astm-d3244': 'the assigned value of ASTM D3244 by R',
});
const SECOND_SCALE = optionsOf({ 'second-scale': 'a second scale that is legal for trade' });

/** The settings of one measure's method, as it stands now. Paths are from the measure's group. */
export function methodSettings(measure: string, rule: unknown): readonly Setting[] {
  return [
    {
      kind: 'list',
      path: ['method'],
      label: 'What stands is',
      options: measure === 'weight' ? SECOND_SCALE : METHODS,
      group: (chosen) => beginMethod(chosen),
    },
    ...methodFigures(readAt(rule, ['method'])),
  ];
}

/** A method with nothing but what it cannot be without. */
export function beginMethod(method: string): Record<string, string> {
  if (method === 'iso-5725') return { method, test: 'cheap' };
  return method === 'astm-d3244' ? { method, tie: 'median' } : { method };
}

const BETWEEN: Setting = {
  kind: 'figure',
  path: ['reproducibility'],
  label: 'Limit between laboratories, R',
  hint: 'In the unit of the test.',
};

function methodFigures(method: unknown): readonly Setting[] {
  switch (method) {
    case 'referee-stands':
      return [
        {
          kind: 'figure',
          path: ['tolerance'],
          label: 'Tolerance',
          hint: 'In the unit of the test. Within it the first figure stands.',
        },
      ];
    case 'iso-5725':
      return [
        {
          kind: 'figure',
          path: ['repeatability'],
          label: 'Limit within a laboratory, r',
          hint: 'In the unit of the test.',
        },
        { ...BETWEEN, hint: 'In the unit of the test. Empty: the first laboratory decides alone.' },
        {
          kind: 'list',
          path: ['test'],
          label: 'Another test is',
          options: optionsOf({ cheap: 'cheap: repeat twice more', dear: 'dear: repeat once more' }),
        },
      ];
    case 'astm-d3244':
      return [
        BETWEEN,
        {
          kind: 'list',
          path: ['tie'],
          label: 'Where two are equally near',
          options: optionsOf({
            median: 'the middle one',
            mean: 'the mean',
            'first-stands': 'the first figure stands',
            'referee-stands': 'the referee’s figure stands',
          }),
        },
      ];
    case 'second-scale':
      return [
        {
          kind: 'figure',
          path: ['toleranceDivisions'],
          label: 'Tolerance',
          unit: 'divisions of the scale',
          hint: 'Empty: the scales’ own tolerance.',
        },
      ];
    default:
      return [];
  }
}
