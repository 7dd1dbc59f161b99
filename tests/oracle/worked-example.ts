/**
 * The example that the description of the file format works through, as input rows.
 */
import type { OracleSeason } from './season.ts';

const perDryMatter = { reference: 'corn', per: 'dry-matter' } as const;

export const workedExample: OracleSeason = {
  agreement: {
    format: 'huskledger-agreement/1',
    id: 'A-26-014',
    seller: 'Quillback Acres',
    buyer: 'Tarn Hollow Dairy',
    feed: 'whole-ear-corn',
    currency: 'USD',
    rounding: 'half-up',
    timeZone: 'America/Boise',
    references: {
      corn: {
        series: 'corn-elevator-bid',
        unit: 'bushel',
        poundsPerUnit: '56',
        dryMatterPercent: '84.5',
        starchPercentOfDryMatter: '71',
        rule: { kind: 'delivery-day', maxAgeDays: '7' },
        basis: '-0.15',
        floor: '3.60',
        ceiling: '5.40',
      },
    },
    tests: { ndf: { decimals: '1' } },
    price: [
      {
        term: 'constituent',
        label: 'Grain, by its starch',
        of: 'grain-equivalent',
        at: perDryMatter,
        sharePercent: '100',
      },
      {
        term: 'remainder',
        label: 'Cob, husk and other fibre',
        after: ['grain-equivalent'],
        at: perDryMatter,
        sharePercent: '60',
      },
      {
        term: 'schedule',
        label: 'Fibre above range',
        on: 'ndf',
        neutral: { from: '0', to: '26' },
        above: [{ points: '4', perPoint: '-0.80' }, { perPoint: '-1.50' }],
        count: 'exact',
        unit: 'money',
        per: 'short-ton',
        weight: 'dry-matter',
      },
      { term: 'flat', label: 'Hauling', rate: '-4.25', per: 'short-ton', weight: 'as-fed' },
    ],
    acceptance: [{ on: 'moisture', below: '32', above: '50' }],
    sampling: { plan: 'per-load' },
  },
  loads: [
    {
      ticket: 'T1',
      delivered_at: '2026-09-14T21:40:00-06:00',
      gross: '78220',
      tare: '31100',
      unit: 'lb',
      sample: 'S1',
    },
    {
      ticket: 'T2',
      delivered_at: '2026-09-15T08:05:00-06:00',
      gross: '77900',
      tare: '31080',
      unit: 'lb',
      sample: 'S2',
    },
  ],
  samples: [{ sample: 'S1', basis: 'dry-matter', dry_matter: '59.2', starch: '54', ndf: '31.34' }],
  prices: [{ series: 'corn-elevator-bid', date: '2026-09-14', price: '4.20' }],
  elections: [],
  choices: [],
};
