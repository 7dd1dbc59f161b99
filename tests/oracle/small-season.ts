/**
 * One load in round figures, to work by hand: 40,000 lb at 60 % dry matter (24,000 lb dry, 20 short tons),
 * a bushel of 40 dry pounds at 4.00, so that a dry pound of grain is worth 0.10.
 */
import { type OracleLine, type OracleLoad, settleByOracle } from './oracle.ts';
import type { Agreement, LoadRow, OracleSeason, Reference, Rule, SampleRow, Term } from './season.ts';

export const corn: Reference = {
  unit: 'bushel',
  poundsPerUnit: '50',
  dryMatterPercent: '80',
  starchPercentOfDryMatter: '70',
  rule: { kind: 'fixed', price: '4.00' },
};

type Small = {
  agreement?: Partial<Agreement>;
  load?: Partial<LoadRow>;
  sample?: Partial<SampleRow>;
  others?: Partial<Pick<OracleSeason, 'samples' | 'prices' | 'elections' | 'choices'>>;
};

export function smallSeason(price: Term[], { agreement, load, sample, others }: Small = {}): OracleSeason {
  const whole: Agreement = {
    format: 'huskledger-agreement/1',
    id: 'A-1',
    seller: 'Fennmark Rows',
    buyer: 'Pell Bight Dairy',
    feed: 'whole-ear-corn',
    currency: 'USD',
    timeZone: 'America/Boise',
    references: { corn },
    price,
    ...agreement,
  };
  const ticket: LoadRow = {
    ticket: 'T1',
    delivered_at: '2026-09-13T12:00:00-06:00',
    gross: '70000',
    tare: '30000',
    unit: 'lb',
    sample: 'S1',
    ...load,
  };
  const result: SampleRow = {
    sample: 'S1',
    basis: 'dry-matter',
    dry_matter: '60',
    starch: '56',
    ndf: '30',
    ...sample,
  };
  return {
    agreement: whole,
    loads: [ticket],
    samples: [result],
    prices: [],
    elections: [],
    choices: [],
    ...others,
  };
}

export function onlyLoad(season: OracleSeason): OracleLoad {
  const load = settleByOracle(season).loads[0];
  if (load === undefined) throw new Error('no load');
  return load;
}

/** `quantity unit amount` of each line, or the status and reason of a load without lines. */
export function outcome(season: OracleSeason): string[] {
  const load = onlyLoad(season);
  if (load.status === 'refused') return ['refused'];
  if (load.status === 'waiting') return [load.reason];
  return load.lines.map((line: OracleLine) => `${line.quantity} ${line.unit} ${line.amount}`);
}

/** Quotes of September and October 2026 against the delivery on Sunday the 13th. */
export const quotes: [date: string, price: string][] = [
  ['2026-10-01', '5.00'],
  ['2026-09-14', '4.35'],
  ['2026-09-10', '4.00'],
  ['2026-09-11', '4.10'],
];

/** `price from quote on dates`, or the reason why there is none. */
export function pricedBy(
  rule: Rule,
  {
    dated = quotes,
    elected,
    terms = {},
  }: { dated?: typeof quotes; elected?: string; terms?: Partial<Reference> },
  rounding: 'half-up' | 'half-even' = 'half-up',
): string {
  const references = { corn: { ...corn, series: 'bid', rule, ...terms } };
  const price: Term[] = [
    { term: 'constituent', label: 'all', of: 'dry-matter', at: { reference: 'corn', per: 'dry-matter' } },
  ];
  const prices = dated.map(([date, quote]) => ({ series: 'bid', date, price: quote }));
  const elections = elected === undefined ? [] : [{ ticket: 'T1', series: 'bid', date: elected }];
  const season = smallSeason(price, {
    agreement: { references, rounding },
    others: { prices, elections },
  });
  const load = onlyLoad(season);
  if (load.status !== 'settled') return load.status === 'waiting' ? load.reason : load.status;
  const { corn: found } = load.references;
  return `${found?.price} from ${found?.quote} on ${found?.quotedOn.join(' ')}`;
}
