/**
 * What is asked about the season as a whole: what tons short of the agreed volume or beyond it come to, and whether all
 * loads are priced again by the season's averages.
 */
import { optionsOf, type Setting, type SettingGroup, UNSAID } from './setting.ts';

const COUNTED_FROM = optionsOf({
  range: 'the end of the range',
  amount: 'the agreed amount, once outside the range',
});

const SHORTFALL: readonly Setting[] = [
  {
    kind: 'list',
    path: ['volume', 'shortfall', 'owedBy'],
    label: 'If less comes, who owes',
    options: optionsOf({ seller: 'the seller, for not delivering', buyer: 'the buyer, for not taking' }),
    without: UNSAID,
  },
  {
    kind: 'list',
    path: ['volume', 'shortfall', 'from'],
    label: 'Tons short are counted from',
    options: COUNTED_FROM,
    without: UNSAID,
  },
  {
    kind: 'figure',
    path: ['volume', 'shortfall', 'rate'],
    label: 'Owed for each ton short',
    hint: 'In the agreement’s currency. Or a percentage, in the next field.',
  },
  {
    kind: 'figure',
    path: ['volume', 'shortfall', 'percentOfAverage'],
    label: 'Or a share of the season’s average price',
    unit: '%',
  },
];

const SURPLUS: readonly Setting[] = [
  {
    kind: 'list',
    path: ['volume', 'surplus', 'from'],
    label: 'If more comes, tons over are counted from',
    options: COUNTED_FROM,
    without: UNSAID,
  },
  {
    kind: 'figure',
    path: ['volume', 'surplus', 'rate'],
    label: 'Taken off for each ton over',
    hint: 'In the agreement’s currency. Or one of the next two fields.',
  },
  {
    kind: 'figure',
    path: ['volume', 'surplus', 'percentOfAverage'],
    label: 'Or a share of the season’s average price taken off',
    unit: '%',
  },
  {
    kind: 'figure',
    path: ['volume', 'surplus', 'price'],
    label: 'Or a price of their own for tons over',
    hint: 'In the place of the season’s average price.',
  },
];

const TRUE_UP: readonly Setting[] = [
  {
    kind: 'date',
    path: ['trueUp', 'prices', 'from'],
    label: 'By the average of quotes from',
    hint: 'Prices that are fixed, or whose day the seller names, stay as they are.',
  },
  { kind: 'date', path: ['trueUp', 'prices', 'to'], label: 'To' },
  { kind: 'tick', path: ['trueUp', 'tests'], label: 'By the season’s average test', ticked: true },
];

/** Paths are from the block `conditions`. */
export const SEASON_RULE_GROUPS: readonly SettingGroup[] = [
  {
    heading: 'If less or more is delivered',
    hint: 'Only a delivery outside the range has a consequence. Law limits what may be fixed in advance: have a licensed adviser read it.',
    settings: [...SHORTFALL, ...SURPLUS],
  },
  {
    heading: 'Priced again once the season is over',
    hint: 'All settled loads at once, by averages of the whole season; the difference goes on one note.',
    settings: TRUE_UP,
  },
];
