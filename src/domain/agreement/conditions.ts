/**
 * The conditions of an agreement: all that two parties settle beside the price. Every part may be left out; what is
 * there has a known shape, so that it can be said in sentences and acted on.
 * The agreement file itself takes any block (`free-block.ts`); this stricter check is for offers that are made here.
 */
import { z } from 'zod';
import { checkBlock } from './check-block.ts';
import type { Agreement } from './document.ts';
import type { AgreementProblem, JsonPath } from './problem.ts';
import { asGroup, asList, asText, type RawGroup } from './raw.ts';
import { aboveZero, date, notNegative, percentage, text, wholeNumber, yesOrNo } from './scalar-shapes.ts';

const ton = z.enum(['short-ton', 'tonne']);
const side = z.enum(['seller', 'buyer']);

export const conditionsShape = z.strictObject({
  volume: z
    .strictObject({
      amount: aboveZero,
      unit: ton,
      weight: z.enum(['as-fed', 'dry-matter']),
      tolerancePercent: percentage.optional(),
    })
    .optional(),
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
      invoices: z.enum(['load', 'day', 'week', 'season']).optional(),
      text: text.optional(),
    })
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
  'delivery',
  'weighing',
  'samplingDuty',
  'laboratory',
  'payment',
  'buyerStatement',
] as const satisfies readonly ConditionKey[];

/**
 * All problems of a `conditions` block, with paths that begin with `conditions`. A window must be in order, days must
 * have what they are counted from, a yearly volume its unit, and nobody is named as a lender twice.
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
    ...deliveryWindow(asGroup(block['delivery']), [...path, 'delivery']),
    ...payable(asGroup(block['payment']), [...path, 'payment']),
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

function payable(payment: RawGroup | undefined, path: JsonPath): AgreementProblem[] {
  if (!payment) return [];
  const days = payment['netDays'];
  if (days !== undefined && payment.from === undefined) {
    const message =
      'is missing: what the days to pay are counted from, "delivery", "settlement" or "invoice"';
    return [{ path: [...path, 'from'], message }];
  }
  if (days === undefined && payment.from !== undefined) {
    return [{ path: [...path, 'netDays'], message: 'is missing: how many days after that the buyer pays' }];
  }
  return [];
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
