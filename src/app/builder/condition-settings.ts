/**
 * What is asked about all of an agreement that does not price: volume, delivery, weighing, sampling, laboratory, the
 * money (`payment-settings.ts`), the season as a whole (`season-rule-settings.ts`) and the statements that law wants.
 */
import type { JsonPath } from '../../domain/agreement/problem.ts';
import { WEIGHT_OPTIONS } from './format-words.ts';
import { PAYMENT_GROUPS } from './payment-settings.ts';
import { SEASON_RULE_GROUPS } from './season-rule-settings.ts';
import { type OneSetting, optionsOf, type SettingGroup, UNSAID } from './setting.ts';

const TONS = optionsOf({ 'short-ton': 'short tons', tonne: 'tonnes' });

function text(path: JsonPath, label: string, more: { hint?: string; known?: readonly string[] } = {}) {
  return { kind: 'text', path, label, ...more } satisfies OneSetting;
}

/** Paths are from the block `conditions`. */
export const CONDITION_GROUPS: readonly SettingGroup[] = [
  {
    heading: 'Volume',
    settings: [
      { kind: 'figure', path: ['volume', 'amount'], label: 'Amount agreed' },
      { kind: 'list', path: ['volume', 'unit'], label: 'Unit', options: TONS, without: UNSAID },
      {
        kind: 'list',
        path: ['volume', 'weight'],
        label: 'Weighed as',
        options: WEIGHT_OPTIONS,
        without: UNSAID,
      },
      { kind: 'figure', path: ['volume', 'tolerancePercent'], label: 'More or less by', unit: '%' },
    ],
  },
  ...SEASON_RULE_GROUPS,
  {
    heading: 'Delivery',
    settings: [
      { kind: 'date', path: ['delivery', 'from'], label: 'First day' },
      { kind: 'date', path: ['delivery', 'to'], label: 'Last day' },
      text(['delivery', 'place'], 'Where the loads go'),
      {
        kind: 'list',
        path: ['delivery', 'hauledBy'],
        label: 'Who hauls',
        options: optionsOf({ seller: 'the seller', buyer: 'the buyer' }),
        without: UNSAID,
      },
      { kind: 'lines', path: ['quality'], label: 'Quality that is accepted', hint: 'In your own words.' },
    ],
  },
  {
    heading: 'Weighing and sampling',
    hint: 'Samples from a bunker or pile are taken from a loader bucket, well back from the face, never alone.',
    settings: [
      text(['weighing', 'by'], 'Who weighs', { known: ['seller', 'buyer'] }),
      text(['weighing', 'scale'], 'Which scale'),
      { kind: 'yes-no', path: ['weighing', 'legalForTrade'], label: 'The scale is legal for trade' },
      text(['samplingDuty', 'by'], 'Who samples', { known: ['seller', 'buyer', 'both together'] }),
      { kind: 'lines', path: ['samplingDuty', 'how'], label: 'How a sample is taken and kept' },
    ],
  },
  {
    heading: 'Laboratory',
    hint: 'Methods differ on wet, fermented corn, so name them.',
    settings: [
      text(['laboratory', 'name'], 'Laboratory'),
      text(['laboratory', 'dryMatterMethod'], 'Method for dry matter'),
      text(['laboratory', 'starchMethod'], 'Method for starch'),
    ],
  },
  ...PAYMENT_GROUPS,
  {
    heading: 'The buyer’s statement, law and notes',
    hint: 'Dealer licences, liens and times to pay are set by the law where you are. Have a licensed adviser read this.',
    settings: [
      {
        kind: 'yes-no',
        path: ['buyerStatement', 'feedsToOwnAnimals'],
        label: 'The buyer feeds it to animals of their own',
      },
      {
        kind: 'figure',
        path: ['buyerStatement', 'yearlyVolume'],
        label: 'Bought in a year',
        hint: 'Of this kind of feed.',
      },
      { kind: 'list', path: ['buyerStatement', 'unit'], label: 'Unit', options: TONS, without: UNSAID },
      text(['buyerStatement', 'licence'], 'Dealer’s licence', {
        hint: 'Its number, or why none is needed.',
      }),
      text(['governingLaw'], 'Governing law'),
      { kind: 'lines', path: ['notes'], label: 'Notes' },
    ],
  },
];
