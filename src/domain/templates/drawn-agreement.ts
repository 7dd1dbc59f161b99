/**
 * What all templates share: the head of an agreement, the references that they price by, the moisture that a load is
 * taken at, how figures may be questioned, and the conditions that can be filled in before the parties have met.
 */
import { AGREEMENT_FORMAT, type PriceTerm, type Reference } from '../agreement/document.ts';
import { STARTING } from './starting-figures.ts';
import type { TemplateBasics } from './template.ts';

/** 1,000 kg ÷ 0.45359237, to ten decimals. */
const POUNDS_PER_TONNE = '2204.6226218488';

/** The last quote counts for a week: a holiday is bridged, and a series that ends is noticed. */
const RULE = { kind: 'delivery-day', maxAgeDays: '7' } as const;

/**
 * Shelled corn by its local price: bushels of 56 lb at 15.5 % moisture (No. 2, as in AGF-502, Ohio State Univ.
 * Extension 2018), or tonnes at 14 % (common practice, no source). Its dry matter is 71 % starch (common practice, no
 * source).
 */
export function cornReference(metric: boolean): Reference {
  const shelled = metric
    ? { unit: 'tonne', poundsPerUnit: POUNDS_PER_TONNE, dryMatterPercent: '86' }
    : { unit: 'bushel', poundsPerUnit: '56', dryMatterPercent: '84.5' };
  return { series: 'corn-local-bid', ...shelled, starchPercentOfDryMatter: '71', rule: RULE };
}

/** Hay by the ton at 10 % moisture (NDSU Extension EC1343, read). */
export function hayReference(metric: boolean): Reference {
  const baled = metric
    ? { unit: 'tonne', poundsPerUnit: POUNDS_PER_TONNE }
    : { unit: 'short ton', poundsPerUnit: '2000' };
  return { series: 'hay-local-market', ...baled, dryMatterPercent: '90', rule: RULE };
}

export interface Formula {
  readonly references: Readonly<Record<string, Reference>>;
  readonly price: readonly PriceTerm[];
  /** The figures that the price takes from a laboratory. */
  readonly tested: readonly ('dry-matter' | 'starch')[];
}

/** The whole document around a formula. */
export function drawAgreement(basics: TemplateBasics, formula: Formula): Record<string, unknown> {
  const { id, seller, buyer, feed, currency, timeZone } = basics;
  const starch = formula.tested.includes('starch');
  return {
    format: AGREEMENT_FORMAT,
    id,
    seller,
    buyer,
    feed,
    currency,
    rounding: 'half-up',
    timeZone,
    references: formula.references,
    tests: Object.fromEntries(formula.tested.map((measure) => [measure, { decimals: '1' }])),
    price: formula.price,
    acceptance: [{ on: 'moisture', ...STARTING[feed].accepted }],
    sampling: { plan: 'per-load' },
    retest: drawRetest(starch),
    conditions: drawConditions(starch),
  };
}

/**
 * Seven days to ask (Canada Grain Regulations, read). Dry matter moves when the referee is more than a point away:
 * between laboratories, 2.8 × 0.44 to 0.77 % of the figure is 0.7 to 1.3 points at 60 % (J AOAC 85:318, read).
 */
function drawRetest(starch: boolean) {
  return {
    askWithinDays: '7',
    keptDays: '30',
    parts: ['laboratory', 'seller', 'buyer', 'referee'],
    referee: 'a second laboratory that both sides name before the first load',
    fee: 'asker-unless-moved',
    measures: {
      'dry-matter': { method: 'referee-stands', tolerance: '1' },
      ...(starch ? { starch: { method: 'closest-two' } } : {}),
      weight: { method: 'second-scale' },
    },
  };
}

/** Who does what is common practice, no source; volume, dates, places and names are left to the parties. */
function drawConditions(starch: boolean) {
  return {
    delivery: { hauledBy: 'seller' },
    weighing: { by: 'buyer', legalForTrade: true },
    samplingDuty: {
      by: 'both together',
      how: 'From several places of the load as it is tipped, mixed, and split into airtight parts that are frozen the same day',
    },
    laboratory: {
      dryMatterMethod: 'in an oven, the same way for every load; the report names temperature and time',
      ...(starch ? { starchMethod: 'by enzymes, without free sugars; the report names the procedure' } : {}),
    },
    payment: { netDays: '14', from: 'settlement', invoices: 'week' },
  };
}
