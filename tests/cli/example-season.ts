/**
 * A small season that settles without a fault, for tests to bend.
 */
export const AGREEMENT = {
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
      at: { reference: 'corn', per: 'dry-matter' },
      sharePercent: '100',
    },
    {
      term: 'remainder',
      label: 'Cob, husk and other fibre',
      after: ['grain-equivalent'],
      at: { reference: 'corn', per: 'dry-matter' },
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
} as const;

export const LOADS = `ticket,delivered_at,gross,tare,unit,sample
T1,2026-09-14T21:40:00-06:00,78220,31100,lb,S1
T2,2026-09-15T10:00:00-06:00,78220,31400,lb,S2
`;
export const SAMPLES = 'sample,basis,dry_matter,starch,ndf\nS1,dry-matter,59.2,54,31.34\n';
export const PRICES =
  'series,date,price\ncorn-elevator-bid,2026-09-14,4.20\ncorn-elevator-bid,2026-09-15,4.25\n';

/** The files of the season, some of them replaced (undefined leaves one out). */
export function seasonWith(
  files: Readonly<Record<string, string | Uint8Array | undefined>> = {},
): Record<string, string | Uint8Array | undefined> {
  return {
    'agreement.json': JSON.stringify(AGREEMENT, undefined, 2),
    'loads.csv': LOADS,
    'samples.csv': SAMPLES,
    'prices.csv': PRICES,
    ...files,
  };
}
