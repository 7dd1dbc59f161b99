/**
 * What is asked about a price line, by its kind. Each key of the format's price terms stands here once.
 */
import { readAt } from './document-path.ts';
import {
  COUNT_WORDS,
  isWeighed,
  MEASURE_OPTIONS,
  PART_OPTIONS,
  PER_OPTIONS,
  WEIGHT_OPTIONS,
} from './format-words.ts';
import { optionsOf, type Setting } from './setting.ts';
import { fitWeight, methodOf, unitOf } from './term-fitting.ts';

export interface TermSetting {
  readonly currency: string;
  /** Names of the references that there are. */
  readonly references: readonly string[];
}

export function namesOf(references: unknown): readonly string[] {
  return typeof references === 'object' && references !== null ? Object.keys(references) : [];
}

const LABEL: Setting = { kind: 'text', path: ['label'], label: 'Called' };
const SHARE: Setting = {
  kind: 'figure',
  path: ['sharePercent'],
  label: 'Share of that price',
  unit: '%',
  hint: 'Empty: 100 %.',
};

/** The settings of one term, as it stands now. */
export function termSettings(term: unknown, about: TermSetting): readonly Setting[] {
  switch (readAt(term, ['term'])) {
    case 'constituent':
      return [
        LABEL,
        { kind: 'list', path: ['of'], label: 'Pay for the pounds of', options: PART_OPTIONS },
        ...unitPrice(about),
        SHARE,
      ];
    case 'remainder':
      return [
        LABEL,
        {
          kind: 'ticks',
          path: ['after'],
          label: 'Pay for what is left after',
          options: PART_OPTIONS,
          hint: 'None: for all dry matter.',
        },
        ...unitPrice(about),
        SHARE,
      ];
    case 'equivalent-bushels':
      return [LABEL, ...bushelSettings(term), followed(about), SHARE, BUSHEL_DECIMALS];
    case 'flat':
      return [
        LABEL,
        {
          kind: 'figure',
          path: ['rate'],
          label: 'Rate',
          unit: about.currency,
          signed: true,
          hint: 'With a minus sign it is taken off what the seller gets.',
        },
        ...perSettings(term),
      ];
    case 'schedule':
      return [LABEL, ...scheduleSettings(term, about)];
    case 'limit':
      return [
        LABEL,
        { kind: 'figure', path: ['floor'], label: 'No less than', unit: about.currency, signed: true },
        { kind: 'figure', path: ['ceiling'], label: 'No more than', unit: about.currency, signed: true },
        ...perSettings(term),
      ];
    default:
      return [];
  }
}

const BUSHEL_DECIMALS: Setting = {
  kind: 'figure',
  path: ['bushelDecimals'],
  label: 'Round the bushels to',
  unit: 'decimals',
  hint: 'Empty: not rounded.',
};

function followed({ references }: TermSetting): Setting {
  return {
    kind: 'list',
    path: ['at', 'reference'],
    label: 'Following the price of',
    options: references.map((name) => ({ value: name, label: name })),
    ...(references.length === 0 ? { hint: 'Add a reference price first, above.' } : {}),
  };
}

function unitPrice(about: TermSetting): readonly Setting[] {
  return [
    followed(about),
    {
      kind: 'list',
      path: ['at', 'per'],
      label: 'That price comes to so much per pound of',
      options: optionsOf({ 'dry-matter': 'its dry matter', starch: 'its starch' }),
      hint: 'Per pound of starch, starch alone carries the value of the whole grain.',
    },
  ];
}

/** What money is per; the weight is asked for only where one is meant. */
function perSettings(term: unknown): readonly Setting[] {
  return [
    {
      kind: 'list',
      path: ['per'],
      label: 'For each',
      options: PER_OPTIONS,
      group: (chosen, before) => fitWeight(chosen, before),
    },
    ...(isWeighed(readAt(term, ['per'])) || readAt(term, ['weight']) !== undefined
      ? [{ kind: 'list', path: ['weight'], label: 'Weighed as', options: WEIGHT_OPTIONS } as const]
      : []),
  ];
}

function scheduleSettings(term: unknown, { currency }: TermSetting): readonly Setting[] {
  const isPercent = readAt(term, ['unit']) === 'percent';
  const side = (path: 'above' | 'below', label: string): Setting => ({
    kind: 'rows',
    path: [path],
    label,
    row: 'step',
    hint: 'The first step begins where the range ends, the next where the one before it ends.',
    columns: [
      {
        kind: 'figure',
        path: ['points'],
        label: 'For the first or next',
        unit: 'points',
        hint: 'Empty in the last step: for all further points.',
      },
      {
        kind: 'figure',
        path: ['perPoint'],
        label: 'Add for each point',
        unit: isPercent ? '%' : currency,
        signed: true,
        hint: 'With a minus sign: take off.',
      },
    ],
    empty: {},
  });
  return [
    { kind: 'list', path: ['on'], label: 'By the test of', options: MEASURE_OPTIONS },
    { kind: 'figure', path: ['neutral', 'from'], label: 'Nothing changes from', signed: true },
    { kind: 'figure', path: ['neutral', 'to'], label: 'Nothing changes up to', signed: true },
    {
      kind: 'list',
      path: ['unit'],
      label: 'Steps are in',
      options: optionsOf({ money: `money (${currency})`, percent: 'percent of the lines before' }),
      group: (chosen, before) => unitOf(chosen, before),
    },
    ...(isPercent && readAt(term, ['per']) === undefined ? [] : perSettings(term)),
    side('above', 'Steps above the range'),
    side('below', 'Steps below the range'),
    { kind: 'list', path: ['count'], label: 'Count points', options: optionsOf(COUNT_WORDS) },
  ];
}

function bushelSettings(term: unknown): readonly Setting[] {
  const kind = readAt(term, ['method', 'kind']);
  return [
    {
      kind: 'list',
      path: ['method', 'kind'],
      label: 'Wet weight becomes bushels by',
      options: optionsOf({
        'dry-matter': 'its dry matter',
        shrink: 'shrink for each point of moisture',
        table: 'a table of pounds that make a bushel',
      }),
      group: (chosen) => methodOf(chosen),
    },
    ...(kind === 'shrink'
      ? [
          {
            kind: 'figure',
            path: ['method', 'percentPerPoint'],
            label: 'Shrink for each point of moisture',
            unit: '% of weight',
            hint: 'Counted above the moisture of the reference grain.',
          } as const,
        ]
      : []),
    ...(kind === 'table' ? TABLE : []),
  ];
}

const TABLE: readonly Setting[] = [
  {
    kind: 'rows',
    path: ['method', 'rows'],
    label: 'The table, driest first',
    row: 'row',
    columns: [
      { kind: 'figure', path: ['moisture'], label: 'Moisture', unit: '%' },
      { kind: 'figure', path: ['poundsPerBushel'], label: 'Makes a bushel', unit: 'lb' },
    ],
    empty: {},
  },
  {
    kind: 'list',
    path: ['method', 'between'],
    label: 'Between two rows',
    options: optionsOf({ linear: 'in proportion', 'next-wetter': 'the wetter row counts' }),
  },
  {
    kind: 'tick',
    path: ['method', 'drier'],
    label: 'A load drier than the table takes its first row',
    ticked: 'first-row',
    hint: 'Otherwise such a load waits until both sides agree.',
  },
];
