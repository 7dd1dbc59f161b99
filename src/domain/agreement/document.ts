/**
 * The agreement file, `huskledger-agreement/1`: its shape alone. Every number is a string and stays one here, as it
 * was written and signed; the settlement reads it into exact numbers. Unknown keys are errors.
 * Rules that need two places at once (a term and its reference) are in `check-agreement.ts`.
 * This format is frozen: files signed under it must read the same for years.
 */
import { z } from 'zod';
import { DISTANCE_UNITS, WEIGHT_UNITS } from '../quantities/units.ts';
import type { FreeBlock } from './free-block.ts';
import { FEED_KINDS, MEASURES, PARTS, TESTED } from './measures.ts';
import {
  aboveZero,
  anyNumber,
  date,
  notNegative,
  percentage,
  share,
  text,
  wholeNumber,
} from './scalar-shapes.ts';

export const AGREEMENT_FORMAT = 'huskledger-agreement/1';
/** Most decimals that a test or a bushel count can be rounded to. */
export const MOST_DECIMALS = 10;

const days = wholeNumber(0, 999);
const decimals = wholeNumber(0, MOST_DECIMALS);

const rule = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('fixed'), price: notNegative }),
  z.strictObject({ kind: z.literal('delivery-day'), maxAgeDays: days.optional() }),
  z.strictObject({ kind: z.literal('average'), quotes: wholeNumber(1, 999), maxAgeDays: days.optional() }),
  z.strictObject({ kind: z.literal('month-average') }),
  z.strictObject({
    kind: z.literal('seller-elects'),
    from: date,
    to: date,
    maxAgeDays: days.optional(),
    default: z.literal('window-end').optional(),
  }),
]);

export const referenceShape = z.strictObject({
  series: text.optional(),
  unit: text,
  poundsPerUnit: aboveZero,
  dryMatterPercent: share,
  starchPercentOfDryMatter: share.optional(),
  rule,
  basis: anyNumber.optional(),
  floor: anyNumber.optional(),
  ceiling: anyNumber.optional(),
});

const per = z.enum([...WEIGHT_UNITS, 'load', ...DISTANCE_UNITS]);
const weight = z.enum(['as-fed', 'dry-matter']);
const unitPrice = z.strictObject({ reference: text, per: z.enum(['dry-matter', 'starch']) });

const bushelMethod = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('dry-matter') }),
  z.strictObject({ kind: z.literal('shrink'), percentPerPoint: notNegative }),
  z.strictObject({
    kind: z.literal('table'),
    rows: z
      .array(z.strictObject({ moisture: percentage, poundsPerBushel: aboveZero }))
      .min(1, { error: 'at least one row' }),
    between: z.enum(['linear', 'next-wetter']),
    drier: z.literal('first-row').optional(),
  }),
]);

const step = z.strictObject({ points: aboveZero.optional(), perPoint: anyNumber });
const steps = z.array(step).min(1, { error: 'at least one step' });

export const priceTermShape = z.discriminatedUnion('term', [
  z.strictObject({
    term: z.literal('constituent'),
    label: text,
    of: z.enum(PARTS),
    at: unitPrice,
    sharePercent: notNegative.optional(),
  }),
  z.strictObject({
    term: z.literal('remainder'),
    label: text,
    after: z.array(z.enum(PARTS)),
    at: unitPrice,
    sharePercent: notNegative.optional(),
  }),
  z.strictObject({
    term: z.literal('equivalent-bushels'),
    label: text,
    method: bushelMethod,
    at: z.strictObject({ reference: text }),
    sharePercent: notNegative.optional(),
    bushelDecimals: decimals.optional(),
  }),
  z.strictObject({ term: z.literal('flat'), label: text, rate: anyNumber, per, weight: weight.optional() }),
  z.strictObject({
    term: z.literal('schedule'),
    label: text,
    on: z.enum(MEASURES),
    neutral: z.strictObject({ from: anyNumber, to: anyNumber }),
    above: steps.optional(),
    below: steps.optional(),
    count: z.enum(['exact', 'completed', 'started']),
    unit: z.enum(['money', 'percent']),
    per: per.optional(),
    weight: weight.optional(),
  }),
  z.strictObject({
    term: z.literal('limit'),
    label: text,
    floor: anyNumber.optional(),
    ceiling: anyNumber.optional(),
    per,
    weight: weight.optional(),
  }),
]);

export const acceptanceShape = z.strictObject({
  on: z.enum(MEASURES),
  below: anyNumber.optional(),
  above: anyNumber.optional(),
});

export const testsShape = z.partialRecord(
  z.enum(TESTED, { error: `one of ${TESTED.join(', ')}` }),
  z.strictObject({ decimals }),
);

/** The keys beside `references`, `price`, `acceptance` and the free blocks, whose members are checked one by one. */
export const headShape = z.strictObject({
  format: z.literal(AGREEMENT_FORMAT),
  id: text,
  seller: text,
  buyer: text,
  feed: z.enum(FEED_KINDS),
  currency: text,
  rounding: z.enum(['half-up', 'half-even']).optional(),
  timeZone: text,
  tests: testsShape.optional(),
  sampling: z.strictObject({ plan: z.enum(['per-load', 'composite', 'per-day']) }).optional(),
});

export type AgreementHead = z.infer<typeof headShape>;
export type Reference = z.infer<typeof referenceShape>;
export type ReferenceRule = Reference['rule'];
export type PriceTerm = z.infer<typeof priceTermShape>;
export type TermOf<Kind extends PriceTerm['term']> = Extract<PriceTerm, { term: Kind }>;
export type BushelMethod = TermOf<'equivalent-bushels'>['method'];
export type Step = z.infer<typeof step>;
export type Per = z.infer<typeof per>;
export type WeightBasis = z.infer<typeof weight>;
export type AcceptanceRange = z.infer<typeof acceptanceShape>;

/** A checked agreement, every number still the string that was signed. */
export interface Agreement extends AgreementHead {
  readonly references: Readonly<Record<string, Reference>>;
  readonly price: readonly PriceTerm[];
  readonly acceptance?: readonly AcceptanceRange[] | undefined;
  readonly retest?: FreeBlock | undefined;
  readonly conditions?: FreeBlock | undefined;
}
