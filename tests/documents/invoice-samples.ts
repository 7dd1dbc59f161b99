/**
 * Invented invoices for the tests of the paper: a plain load, a load with many lines and long names, a season.
 */
import type { InvoiceData, InvoiceLine, InvoiceLoad } from '../../src/documents/invoice/invoice-data.ts';

export const fingerprint = '9f2c7d1e5b8a40366c1f0e92d7ab54c83e6f7019b2c4d5a8e1f30b7c6d92a45e';

const lines: readonly InvoiceLine[] = [
  {
    label: 'Grain, by its starch',
    quantity: '21,215.945915',
    unit: 'lb',
    rate: '0.0855875',
    amount: '1,815.82',
    how: '47,120 lb × 59.2 % dry matter × 54 % starch ÷ 71 % = 21,215.945915 lb; 4.05 ÷ (56 × 84.5 %) = 0.0855875 USD/lb',
  },
  {
    label: 'Cob, husk and other fibre',
    quantity: '6,679.094085',
    unit: 'lb',
    rate: '0.0513525',
    amount: '342.99',
    how: '27,895.04 lb dry matter − 21,215.945915 lb = 6,679.094085 lb; 0.0855875 × 60 % = 0.0513525 USD/lb',
  },
  {
    label: 'Fibre above range',
    quantity: '13.94752',
    unit: 'short-ton',
    rate: '−5.15',
    amount: '−71.83',
    how: 'NDF 31.3 % is 5.3 points above 26: 4 × −0.80 + 1.3 × −1.50 = −5.15 USD per short ton of dry matter',
  },
  {
    label: 'Hauling',
    quantity: '23.56',
    unit: 'short-ton',
    rate: '−4.25',
    amount: '−100.13',
    how: '47,120 lb ÷ 2,000 × −4.25 USD',
  },
];

export const load: InvoiceLoad = {
  ticket: 'T1',
  deliveredAt: '2026-09-14 21:40',
  truck: 'Red Kettle 4',
  gross: { figure: '78,220', unit: 'lb' },
  tare: { figure: '31,100', unit: 'lb' },
  net: { figure: '47,120', unit: 'lb' },
  netConverted: '47,120',
  strip: {
    weight: '47,120 lb',
    length: 1,
    water: { share: 0.408, percent: '40.8' },
    starch: { share: 0.31968, percent: '32.0' },
    fibre: { share: 0.18553, percent: '18.6' },
    restPercent: '8.6',
  },
  dryMatterPercent: '59.2',
  starchPercent: '54',
  tests: {
    sample: 'S1',
    basis: 'dry-matter',
    laboratory: 'Fennel Ridge Laboratory',
    measures: [
      { name: 'Dry matter', figure: '59.2', unit: '% as-fed' },
      { name: 'Starch', figure: '54', unit: '% of dry matter' },
      { name: 'NDF', figure: '31.3', unit: '% of dry matter' },
    ],
  },
  references: [
    {
      name: 'corn',
      series: 'corn-elevator-bid',
      quote: '4.20',
      quotedOn: ['2026-09-14'],
      price: '4.05',
      unit: 'USD a bushel',
    },
  ],
  lines,
  total: '1,986.85',
};

export const loadInvoice: InvoiceData = {
  kind: 'load',
  number: 'A-26-014/T1',
  issuedOn: '2026-09-21',
  seller: 'Quillback Acres',
  buyer: 'Tarn Hollow Dairy',
  agreement: { id: 'A-26-014', version: '2', fingerprint },
  feed: 'Whole-ear corn: ground grain, cob and husk',
  currency: 'USD',
  weightUnit: 'lb',
  decimalMark: '.',
  delivered: '2026-09-14',
  loads: [load],
  absent: [],
  total: '1,986.85',
};

const longName = 'Widows of Upper Sallowfen Cooperative Ear Corn & Silage Farm';
const otherLongName = 'Łódź-Peñasco-Győr Brothers’ Hollow Meadow Dairy and Creamery';

/** Everything at its longest: names of 60 characters, twelve lines, twelve measures, kilograms, an untested part. */
export const crowdedInvoice: InvoiceData = {
  ...loadInvoice,
  kind: 'day',
  number: 'A-26-014/2026-09-14',
  seller: longName,
  buyer: otherLongName,
  feed: 'High-moisture ear corn: ground grain and cob, little or no husk',
  delivered: '2026-09-14',
  loads: [
    {
      ...load,
      ticket: 'NORTHSCALE-2026-000417',
      truck: 'Ochre tandem with pup trailer, second driver',
      gross: { figure: '35,480', unit: 'kg' },
      tare: { figure: '14,107', unit: 'kg' },
      net: { figure: '21,373', unit: 'kg' },
      strip: { ...load.strip, length: 0.86, fibre: null, restPercent: '27.2' },
      tests: {
        sample: 'S1',
        basis: 'as-fed',
        laboratory: 'Fennel Ridge Laboratory',
        measures: [
          { name: 'Dry matter', figure: '59.2', unit: '% as-fed' },
          { name: 'Starch', figure: '54', unit: '% of dry matter' },
          { name: 'NDF', figure: '31.3', unit: '% of dry matter' },
          { name: 'ADF', figure: '12.4', unit: '% of dry matter' },
          { name: 'Crude protein', figure: '8.1', unit: '% of dry matter' },
          { name: 'Crude fat', figure: '3.6', unit: '% of dry matter' },
          { name: 'Ash', figure: '1.7', unit: '% of dry matter' },
          { name: 'pH', figure: '4.1', unit: '' },
          { name: 'Ammonia nitrogen', figure: '5.2', unit: '% of total nitrogen' },
          { name: 'Particle size', figure: '1,180', unit: 'µm' },
          { name: 'Aflatoxin', figure: '2', unit: 'µg/kg as-fed' },
          { name: 'Vomitoxin', figure: '0.4', unit: 'mg/kg as-fed' },
        ],
      },
      references: [
        {
          name: 'corn',
          series: 'corn-elevator-bid',
          quote: '4.2075',
          quotedOn: ['2026-09-08', '2026-09-09', '2026-09-10', '2026-09-11', '2026-09-14'],
          price: '4.0575',
          unit: 'USD a bushel',
        },
        { name: 'hay', quote: '182.00', quotedOn: [], price: '182.00', unit: 'USD a short ton' },
      ],
      lines: [...lines, ...lines, ...lines],
      total: '5,960.55',
    },
  ],
  absent: [{ why: 'waits for its laboratory result', loads: ['T2'] }],
  total: '5,960.55',
};

/** A season of `count` loads, each a little other than the one before. */
export function seasonInvoice(count: number): InvoiceData {
  const loads = Array.from({ length: count }, (_, index): InvoiceLoad => {
    const water = 0.36 + ((index * 37) % 11) / 100;
    const day = String(14 + (index % 16)).padStart(2, '0');
    return {
      ...load,
      ticket: `T${index + 1}`,
      deliveredAt: `2026-09-${day} ${String(6 + (index % 16)).padStart(2, '0')}:05`,
      strip: {
        ...load.strip,
        length: 0.78 + ((index * 13) % 22) / 100,
        water: { share: water, percent: (water * 100).toFixed(1) },
        starch:
          index % 9 === 7 ? null : { share: (1 - water) * 0.54, percent: ((1 - water) * 54).toFixed(1) },
      },
      ...(index % 9 === 7 ? { starchPercent: '–' } : {}),
    };
  });
  return {
    ...loadInvoice,
    kind: 'season',
    number: 'A-26-014/season',
    delivered: '2026-09-14 to 2026-10-02',
    loads,
    net: '1,884,800',
    absent: [{ why: 'waits for its laboratory result', loads: ['T41', 'T42'] }],
    total: '−79,474.00',
  };
}
