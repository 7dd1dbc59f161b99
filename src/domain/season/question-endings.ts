/**
 * The questions of a season counted by how they ended, with what they moved. Amounts are minor units.
 */

export const ENDINGS = ['decided', 'agreed', 'withdrawn'] as const;
export type EndingKind = (typeof ENDINGS)[number];

export interface EndedQuestion {
  readonly ending: EndingKind;
  /** What the buyer owes more by it; below zero, less. */
  readonly changed: bigint;
  /** What the tests cost each side in the end. */
  readonly sellerBears: bigint;
  readonly buyerBears: bigint;
}

export interface QuestionSums {
  readonly asked: number;
  readonly open: number;
  readonly ended: Readonly<Record<EndingKind, number>>;
  /** Ended with another value than before. */
  readonly moving: number;
  /** Sums of what single questions moved; neither is netted against the other. */
  readonly toSeller: bigint;
  readonly toBuyer: bigint;
  readonly sellerBears: bigint;
  readonly buyerBears: bigint;
}

export function questionSums(asked: number, ended: readonly EndedQuestion[]): QuestionSums {
  const sum = (pick: (one: EndedQuestion) => bigint) => ended.reduce((total, one) => total + pick(one), 0n);
  const ofKind = (kind: EndingKind) => ended.filter(({ ending }) => ending === kind).length;
  return {
    asked,
    open: asked - ended.length,
    ended: { decided: ofKind('decided'), agreed: ofKind('agreed'), withdrawn: ofKind('withdrawn') },
    moving: ended.filter(({ changed }) => changed !== 0n).length,
    toSeller: sum(({ changed }) => (changed > 0n ? changed : 0n)),
    toBuyer: sum(({ changed }) => (changed < 0n ? -changed : 0n)),
    sellerBears: sum(({ sellerBears }) => sellerBears),
    buyerBears: sum(({ buyerBears }) => buyerBears),
  };
}
