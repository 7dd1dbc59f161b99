/**
 * What is asked at the head of an agreement: who sells what to whom, in which money, by which clock.
 */
import { FEED_OPTIONS } from './format-words.ts';
import { optionsOf, type Setting } from './setting.ts';

/** The settings of the head; `zones` are the time zones that a browser knows. */
export function headSettings(zones: readonly string[]): readonly Setting[] {
  return [
    { kind: 'text', path: ['id'], label: 'Number of the agreement' },
    { kind: 'text', path: ['seller'], label: 'Seller' },
    { kind: 'text', path: ['buyer'], label: 'Buyer' },
    { kind: 'list', path: ['feed'], label: 'Feed', options: FEED_OPTIONS },
    {
      kind: 'text',
      path: ['currency'],
      label: 'Currency',
      known: ['USD', 'CAD', 'EUR'],
      hint: 'Its three letters, like USD.',
    },
    {
      kind: 'text',
      path: ['timeZone'],
      label: 'Time zone of deliveries',
      known: zones,
      hint: 'Like America/Boise. It says on which day a load of the night was delivered.',
    },
    {
      kind: 'list',
      path: ['rounding'],
      label: 'An exact half of the smallest coin',
      options: optionsOf({ 'half-up': 'goes away from zero', 'half-even': 'goes to the even neighbour' }),
      without: 'goes away from zero, as usual',
    },
  ];
}

/** Parts of the document that panels of their own ask for. */
export const PARTS_ELSEWHERE = [
  'references',
  'tests',
  'price',
  'acceptance',
  'sampling',
  'retest',
  'conditions',
];
