/**
 * One case as its input files have it: every number is the string that the file holds.
 * Rows are keyed by the CSV column names; an absent key is an empty cell.
 */
export type Feed =
  | 'whole-ear-corn'
  | 'high-moisture-ear-corn'
  | 'high-moisture-shelled-corn'
  | 'corn-silage'
  | 'dry-shelled-corn';
export type Constituent = 'starch' | 'ndf' | 'adf' | 'crude-protein' | 'crude-fat' | 'ash';
export type OtherMeasure = 'ph' | 'ammonia-nitrogen' | 'particle-size' | 'aflatoxin' | 'vomitoxin';
export type TestedMeasure = Constituent | OtherMeasure | 'dry-matter';
export type Measure = TestedMeasure | 'moisture';
export type Part = Constituent | 'grain-equivalent';

export const constituents = ['starch', 'ndf', 'adf', 'crude-protein', 'crude-fat', 'ash'] as const;
export const otherMeasures = [
  'ph',
  'ammonia-nitrogen',
  'particle-size',
  'aflatoxin',
  'vomitoxin',
] as const satisfies readonly OtherMeasure[];

export type Rule =
  | { kind: 'fixed'; price: string }
  | { kind: 'delivery-day'; maxAgeDays?: string }
  | { kind: 'average'; quotes: string; maxAgeDays?: string }
  | { kind: 'month-average' }
  | { kind: 'seller-elects'; from: string; to: string; maxAgeDays?: string; default?: 'window-end' };

export type Reference = {
  series?: string;
  unit: string;
  poundsPerUnit: string;
  dryMatterPercent: string;
  starchPercentOfDryMatter?: string;
  rule: Rule;
  basis?: string;
  floor?: string;
  ceiling?: string;
};

export type WeightUnit = 'short-ton' | 'tonne' | 'cwt' | 'lb' | 'kg';
export type Per = WeightUnit | 'load' | 'mile' | 'km';
export type Extent = { per: Per; weight?: 'as-fed' | 'dry-matter' };
export type UnitPrice = { reference: string; per: 'dry-matter' | 'starch' };
export type Step = { points?: string; perPoint: string };

export type BushelMethod =
  | { kind: 'dry-matter' }
  | { kind: 'shrink'; percentPerPoint: string }
  | {
      kind: 'table';
      rows: { moisture: string; poundsPerBushel: string }[];
      between: 'linear' | 'next-wetter';
      drier?: 'first-row';
    };

export type ConstituentTerm = {
  term: 'constituent';
  label: string;
  of: Part | 'dry-matter';
  at: UnitPrice;
  sharePercent?: string;
};
export type RemainderTerm = {
  term: 'remainder';
  label: string;
  after: Part[];
  at: UnitPrice;
  sharePercent?: string;
};
export type BushelTerm = {
  term: 'equivalent-bushels';
  label: string;
  at: { reference: string };
  method: BushelMethod;
  bushelDecimals?: string;
  sharePercent?: string;
};
export type FlatTerm = { term: 'flat'; label: string; rate: string } & Extent;
export type ScheduleTerm = {
  term: 'schedule';
  label: string;
  on: Measure;
  neutral: { from: string; to: string };
  above?: Step[];
  below?: Step[];
  count: 'exact' | 'completed' | 'started';
} & ({ unit: 'percent' } | ({ unit: 'money' } & Extent));
export type LimitTerm = { term: 'limit'; label: string; floor?: string; ceiling?: string } & Extent;
export type Term = ConstituentTerm | RemainderTerm | BushelTerm | FlatTerm | ScheduleTerm | LimitTerm;

export type Acceptance = { on: Measure; below?: string; above?: string };

export type Agreement = {
  format: 'huskledger-agreement/1';
  id: string;
  seller: string;
  buyer: string;
  feed: Feed;
  currency: string;
  rounding?: 'half-up' | 'half-even';
  timeZone: string;
  references: Record<string, Reference>;
  tests?: Partial<Record<TestedMeasure, { decimals: string }>>;
  price: Term[];
  acceptance?: Acceptance[];
  sampling?: { plan: 'per-load' | 'composite' | 'per-day' };
};

export type LoadRow = {
  ticket: string;
  delivered_at: string;
  gross: string;
  tare: string;
  unit: string;
  sample?: string;
  miles?: string;
  km?: string;
  truck?: string;
};
export type SampleRow = {
  sample: string;
  basis: string;
  dry_matter: string;
  starch?: string;
  ndf?: string;
  adf?: string;
  crude_protein?: string;
  crude_fat?: string;
  ash?: string;
  ph?: string;
  ammonia_nitrogen?: string;
  particle_size?: string;
  aflatoxin?: string;
  vomitoxin?: string;
};
export type PriceRow = { series: string; date: string; price: string };
export type ElectionRow = { ticket: string; series: string; date: string };
export type ChoiceRow = { ticket: string; choice: string };

export type OracleSeason = {
  agreement: Agreement;
  loads: LoadRow[];
  samples: SampleRow[];
  prices: PriceRow[];
  elections: ElectionRow[];
  choices: ChoiceRow[];
};

export const sampleColumns = {
  'dry-matter': 'dry_matter',
  starch: 'starch',
  ndf: 'ndf',
  adf: 'adf',
  'crude-protein': 'crude_protein',
  'crude-fat': 'crude_fat',
  ash: 'ash',
  ph: 'ph',
  'ammonia-nitrogen': 'ammonia_nitrogen',
  'particle-size': 'particle_size',
  aflatoxin: 'aflatoxin',
  vomitoxin: 'vomitoxin',
} as const satisfies Record<TestedMeasure, keyof SampleRow>;

/** Decimals of the minor unit, for the currencies that cases are written in. */
export const currencyDecimals: ReadonlyMap<string, number> = new Map([
  ['USD', 2],
  ['EUR', 2],
  ['CAD', 2],
  ['MXN', 2],
  ['JPY', 0],
  ['CLP', 0],
  ['KWD', 3],
  ['BHD', 3],
]);
