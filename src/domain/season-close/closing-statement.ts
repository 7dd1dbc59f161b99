/**
 * What a season came to, as both parties sign it: text that is kept and printed for good, so its shape is frozen.
 */
import { z } from 'zod';
import { AGREED_RULES } from './agreed-rules.ts';
import { OPEN_POINT_KINDS } from './open-points.ts';

export const CLOSING_FORMAT = 'huskledger-closing/1';

const fingerprint = z.string().regex(/^[0-9a-f]{64}$/);
const count = z.string().regex(/^\d+$/);
/** A decimal string; of money in the agreement's currency, above zero where the buyer owes. */
const figure = z.string().regex(/^-?\d+(\.\d+)?$/);

export const closingStatementShape = z.strictObject({
  format: z.literal(CLOSING_FORMAT),
  agreement: z.strictObject({
    id: z.string(),
    number: z.string(),
    /** SHA-256 of each version's document, oldest first. */
    versions: z.array(fingerprint),
  }),
  seller: z.string(),
  buyer: z.string(),
  currency: z.string(),
  drawnUpOn: z.string(),
  journal: z.strictObject({
    entries: count,
    /** The fingerprint of the last entry. */
    head: fingerprint,
    /** RFC 6962 over the entries' documents. */
    root: fingerprint,
  }),
  loads: z.strictObject({ settled: count, refused: count, void: count, unsettled: count }),
  /** Null where no volume was agreed; in its own unit and weight. */
  committed: z
    .strictObject({
      amount: figure,
      unit: z.string(),
      weight: z.string(),
      tolerancePercent: figure.nullable(),
      /** At most six decimals. */
      delivered: figure,
      /** Against the amount, give or take the tolerance. */
      standing: z.enum(['under', 'within', 'over']),
    })
    .nullable(),
  money: z.strictObject({
    settled: figure,
    invoiced: figure,
    paid: figure,
    /** Taken for paying early, above zero; absent where there were none. invoiced − discounts − paid = balance. */
    discounts: figure.optional(),
    balance: figure,
  }),
  questions: z.strictObject({ decided: count, withdrawn: count, agreed: count }),
  /** What the agreed rules for the season come to; absent where none is, as in statements from before there were any. */
  adjustments: z
    .array(
      z.strictObject({
        rule: z.enum(AGREED_RULES),
        words: z.string(),
        /** Null where it cannot be worked out yet; the words say why. */
        amount: figure.nullable(),
        /** On notes so far. */
        issued: figure,
      }),
    )
    .optional(),
  /** What both sides carry over by signing. */
  carried: z.array(
    z.strictObject({
      kind: z.enum(OPEN_POINT_KINDS),
      count,
      words: z.string(),
      amount: figure.nullable(),
    }),
  ),
  /** Where the books of one side say something else, and both leave it so; absent where they do not. */
  differences: z
    .array(
      z.strictObject({
        ticket: z.string().nullable(),
        /** Whose books differ. */
        by: z.string(),
        /** How much more the buyer owes by them. */
        amount: figure,
        words: z.string(),
      }),
    )
    .optional(),
});

export type ClosingStatement = z.infer<typeof closingStatementShape>;
