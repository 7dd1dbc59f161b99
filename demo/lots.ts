/**
 * Feed that the demo's sellers post: what each lot says, with days counted from today so that it is always open.
 */
import type { Feed } from '../src/domain/agreement/measures.ts';
import type { PublicPart } from '../src/domain/lots/lot-document.ts';
import { TEMPLATES } from '../src/domain/templates/templates.ts';

export interface DemoLot {
  readonly seller: string;
  readonly address: string;
  readonly audience: 'everyone' | 'invited';
  readonly publicParts?: readonly PublicPart[];
  readonly document: Readonly<Record<string, unknown>>;
}

const DAY = 86_400_000;
const MONEY = { currency: 'USD', timeZone: 'America/Boise' };

/** An asking formula drawn from a template, without the names that only an offer has. */
export function askingBy(template: string, feed: Feed): Record<string, unknown> {
  const drawn = TEMPLATES.find(({ id }) => id === template)?.draw({
    id: 'asking',
    seller: 'the seller',
    buyer: 'the buyer',
    feed,
    metric: false,
    ...MONEY,
  });
  if (!drawn) throw new Error(`There is no template ${template}`);
  const { id: _, seller: _s, buyer: _b, ...asking } = drawn;
  return asking;
}

/** `today` is the moment at which they are posted. */
export function demoLots(today: number): readonly DemoLot[] {
  const day = (from: number) => new Date(today + from * DAY).toISOString().slice(0, 10);
  const base = { ...MONEY, ton: 'short-ton', until: day(45), hauledBy: 'seller' };
  return [
    {
      seller: 'Quillback Acres',
      address: '4 Teasel Lane, by the old pump house',
      audience: 'everyone',
      publicParts: ['seller', 'amount', 'storage', 'tests', 'region', 'delivery', 'price'],
      document: {
        ...base,
        feed: 'whole-ear-corn',
        wetTons: '1500',
        dryTons: '870',
        storage: 'standing',
        harvest: { from: day(20), to: day(38) },
        moisture: { from: '38', to: '45' },
        tests: [
          test(day(-9), {
            'dry-matter': '57.2',
            starch: '54.8',
            ndf: '25.9',
            adf: '11.2',
            'crude-protein': '8.1',
          }),
          test(day(-2), {
            'dry-matter': '59.6',
            starch: '56.4',
            ndf: '24.1',
            adf: '10.3',
            'crude-protein': '8.0',
          }),
        ],
        processing: 'ground through a recutter screen at harvest',
        particleSize: '1900',
        inoculant: 'lactic acid bacteria, at the rate on its label',
        region: 'Upper Teasel Valley',
        place: { latitude: '43.6', longitude: '-116.4' },
        weighedBy: 'the buyer’s scale, certified for trade',
        asking: askingBy('starch-and-fibre', 'whole-ear-corn'),
      },
    },
    {
      seller: 'Quillback Acres',
      address: '19 Teasel Lane',
      audience: 'everyone',
      document: {
        ...base,
        feed: 'high-moisture-shelled-corn',
        wetTons: '620',
        dryTons: '447',
        storage: 'upright-silo',
        harvest: { from: day(-60), to: day(-45) },
        moisture: { from: '26', to: '30' },
        tests: [
          test(day(-20), {
            'dry-matter': '72.1',
            starch: '71.3',
            ndf: '9.8',
            adf: '3.4',
            'crude-protein': '8.6',
          }),
        ],
        processing: 'rolled into the silo',
        region: 'Upper Teasel Valley',
        place: { latitude: '43.6', longitude: '-116.4' },
        hauledBy: 'buyer',
        weighedBy: 'the seller’s scale, certified for trade',
        asking: askingBy('bushels-by-dry-matter', 'high-moisture-shelled-corn'),
      },
    },
    {
      seller: 'Oddmeadow Farm',
      address: 'Section 12, the long bunker',
      audience: 'everyone',
      publicParts: ['amount', 'region', 'tests'],
      document: {
        ...base,
        feed: 'high-moisture-ear-corn',
        wetTons: '900',
        dryTons: '560',
        storage: 'bunker',
        harvest: { from: day(-50), to: day(-40) },
        moisture: { from: '35', to: '40' },
        tests: [
          test(day(-6), {
            'dry-matter': '62.4',
            starch: '60.9',
            ndf: '19.5',
            adf: '8.6',
            'crude-protein': '8.3',
          }),
        ],
        region: 'Cutbank Flats',
        place: { latitude: '43.9', longitude: '-116.9' },
        hauledBy: 'buyer',
        weighedBy: 'a public scale half way',
        asking: askingBy('energy-share', 'high-moisture-ear-corn'),
      },
    },
    {
      seller: 'Oddmeadow Farm',
      address: 'Section 12, east field',
      audience: 'everyone',
      document: {
        ...base,
        feed: 'corn-silage',
        wetTons: '3400',
        storage: 'pile',
        harvest: { from: day(-80), to: day(-72) },
        moisture: { from: '62', to: '68' },
        tests: [
          test(day(-30), {
            'dry-matter': '34.8',
            starch: '31.2',
            ndf: '41.5',
            adf: '25.1',
            'crude-protein': '7.9',
          }),
        ],
        region: 'Cutbank Flats',
        place: { latitude: '43.9', longitude: '-116.9' },
        weighedBy: 'the buyer’s scale',
        asking: askingBy('flat-with-schedules', 'corn-silage'),
      },
    },
  ];
}

function test(on: string, figures: Readonly<Record<string, string>>) {
  return { on, laboratory: 'Fennel Ridge Laboratory', method: 'near infrared', ...figures };
}
