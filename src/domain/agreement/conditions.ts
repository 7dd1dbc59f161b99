/**
 * The conditions of an agreement: all that two parties settle beside the price. Every part may be left out; what is
 * there has a known shape, so that it can be said in sentences and acted on.
 * The agreement file itself takes any block (`free-block.ts`); this stricter check is for offers that are made here.
 */
import { z } from 'zod';
import { DAY_COUNTS } from '../money/day-count.ts';
import { WEIGHT_UNITS } from '../quantities/units.ts';
import { checkBlock } from './check-block.ts';
import type { Agreement } from './document.ts';
import { deductionRules, paymentRules } from './payment-rules.ts';
import type { AgreementProblem, JsonPath } from './problem.ts';
import { asGroup, asList, asText, type RawGroup } from './raw.ts';
import {
  aboveZero,
  date,
  notNegative,
  percentage,
  share,
  text,
  wholeNumber,
  yesOrNo,
} from './scalar-shapes.ts';
import { shortfallShape, surplusShape, trueUpRules, trueUpShape, volumeRules } from './season-rule-shapes.ts';

const ton = z.enum(['short-ton', 'tonne']);
const side = z.enum(['seller', 'buyer']);

/** Which loads share an invoice. */
export const INVOICED_BY = ['load', 'day', 'week', 'month', 'season'] as const;

export const conditionsShape = z.strictObject({
  volume: z
    .strictObject({
      amount: aboveZero,
      unit: ton,
      weight: z.enum(['as-fed', 'dry-matter']),
      tolerancePercent: percentage.optional(),
      shortfall: shortfallShape.optional(),
      surplus: surplusShape.optional(),
    })
    .optional(),
  /** After the season every load is priced again by the season's own averages. */
  trueUp: trueUpShape.optional(),
  delivery: z
    .strictObject({
      from: date.optional(),
      to: date.optional(),
      place: text.optional(),
      hauledBy: side.optional(),
    })
    .optional(),
  quality: text.optional(),
  weighing: z
    .strictObject({
      /** `seller`, `buyer`, or who else in words. */
      by: text.optional(),
      scale: text.optional(),
      legalForTrade: yesOrNo.optional(),
    })
    .optional(),
  samplingDuty: z
    .strictObject({
      /** `seller`, `buyer`, `both together`, or who else in words. */
      by: text.optional(),
      how: text.optional(),
    })
    .optional(),
  laboratory: z
    .strictObject({
      name: text.optional(),
      dryMatterMethod: text.optional(),
      starchMethod: text.optional(),
    })
    .optional(),
  payment: z
    .strictObject({
      netDays: wholeNumber(0, 999).optional(),
      from: z.enum(['delivery', 'settlement', 'invoice']).optional(),
      /** Due on this day of the month after the one in which the invoice is issued; shorter months end it earlier. */
      dayOfMonth: wholeNumber(1, 31).optional(),
      /** Payment is deferred: nothing is due before this day. */
      deferredTo: date.optional(),
      invoices: z.enum(INVOICED_BY).optional(),
      /** `buyer`: it draws up the seller's invoices itself (self-billing). */
      issuedBy: side.optional(),
      interest: z.strictObject({ percentPerYear: notNegative, dayCount: z.enum(DAY_COUNTS) }).optional(),
      discount: z.strictObject({ percent: share, withinDays: wholeNumber(0, 999) }).optional(),
      /** What a payment that the bank gives back costs the payer. */
      returnedPaymentFee: aboveZero.optional(),
      text: text.optional(),
    })
    .optional(),
  /** Money on account for a load that has not settled: a share of what it is thought to be worth. */
  advance: z
    .strictObject({
      sharePercent: share,
      /** What a load is thought to be worth before its result. */
      rate: aboveZero,
      per: z.enum([...WEIGHT_UNITS, 'load']),
      /** A load with its result, waiting for its price alone, is valued at the newest quote by its delivery day. */
      byNewestQuote: yesOrNo.optional(),
    })
    .optional(),
  /** What is taken off the seller's money, load by load, beside the price. */
  deductions: z
    .array(
      z.strictObject({
        label: text,
        rate: aboveZero,
        per: z.enum([...WEIGHT_UNITS, 'bushel', 'load', 'percent']),
        weight: z.enum(['as-fed', 'dry-matter']).optional(),
        poundsPerBushel: aboveZero.optional(),
        /** To whom the buyer pays it on; without one the buyer keeps it. */
        payee: text.optional(),
      }),
    )
    .min(1, { error: 'at least one deduction' })
    .optional(),
  lienHolders: z
    .array(z.strictObject({ name: text }))
    .min(1, { error: 'at least one name' })
    .optional(),
  buyerStatement: z
    .strictObject({
      feedsToOwnAnimals: yesOrNo.optional(),
      yearlyVolume: notNegative.optional(),
      unit: ton.optional(),
      licence: text.optional(),
    })
    .optional(),
  governingLaw: text.optional(),
  notes: text.optional(),
});

export type Conditions = z.infer<typeof conditionsShape>;
export type ConditionKey = keyof Conditions;

/** The parts that are groups of their own. */
const GROUPS = [
  'trueUp',
  'delivery',
  'weighing',
  'samplingDuty',
  'laboratory',
  'payment',
  'buyerStatement',
] as const satisfies readonly ConditionKey[];

/**
 * All problems of a `conditions` block, with paths that begin with `conditions`. A window must be in order, days must
 * have what they are counted from, a yearly volume its unit, and nobody is named as a lender twice; what holds of payment
 * and deductions is in `payment-rules.ts`, of rules for the season as a whole in `season-rule-shapes.ts`.
 */
export function checkConditions(block: unknown): AgreementProblem[] {
  return checkBlock({ shape: conditionsShape, rules: conditionRules, block, path: ['conditions'] });
}

/** The conditions where they have the known shape; undefined where they are absent or free. */
export function conditionsOf({ conditions }: Pick<Agreement, 'conditions'>): Conditions | undefined {
  if (conditions === undefined || checkConditions(conditions).length > 0) return undefined;
  return conditionsShape.safeParse(conditions).data;
}

function conditionRules(block: RawGroup, path: JsonPath): AgreementProblem[] {
  return [
    ...GROUPS.flatMap((key) => notEmpty(block[key], [...path, key])),
    ...volumeRules(asGroup(block['volume']), [...path, 'volume']),
    ...trueUpRules(asGroup(block['trueUp']), [...path, 'trueUp']),
    ...deliveryWindow(asGroup(block['delivery']), [...path, 'delivery']),
    ...paymentRules(asGroup(block['payment']), [...path, 'payment']),
    ...deductionRules(asList(block['deductions']), [...path, 'deductions']),
    ...volumeWithUnit(asGroup(block['buyerStatement']), [...path, 'buyerStatement']),
    ...namedOnce(asList(block['lienHolders']), [...path, 'lienHolders']),
  ];
}

function notEmpty(value: unknown, path: JsonPath): AgreementProblem[] {
  const group = asGroup(value);
  if (!group || Object.values(group).some((member) => member !== undefined)) return [];
  return [{ path, message: 'holds nothing; fill it in or leave it out' }];
}

function deliveryWindow(delivery: RawGroup | undefined, path: JsonPath): AgreementProblem[] {
  const from = dateText(delivery?.from);
  const to = dateText(delivery?.to);
  if (from === undefined || to === undefined || from <= to) return [];
  return [{ path: [...path, 'from'], message: `must not be after "to"; found ${from} after ${to}` }];
}

function dateText(value: unknown): string | undefined {
  return date.safeParse(value).data;
}

function volumeWithUnit(statement: RawGroup | undefined, path: JsonPath): AgreementProblem[] {
  if (!statement) return [];
  const volume = statement['yearlyVolume'];
  if (volume !== undefined && statement.unit === undefined) {
    const message = 'is missing: "short-ton" or "tonne", since a yearly volume stands beside it';
    return [{ path: [...path, 'unit'], message }];
  }
  if (volume === undefined && statement.unit !== undefined) {
    const message = 'is missing: how much the buyer buys a year, in that unit';
    return [{ path: [...path, 'yearlyVolume'], message }];
  }
  return [];
}

function namedOnce(holders: readonly unknown[], path: JsonPath): AgreementProblem[] {
  const names = holders.map((holder) => asText(asGroup(holder)?.['name'])?.trim());
  return names.flatMap((name, index) =>
    name === undefined || name === '' || names.indexOf(name) === index
      ? []
      : [
          {
            path: [...path, index, 'name'],
            message: `names ${JSON.stringify(name)} a second time; remove one`,
          },
        ],
  );
}
