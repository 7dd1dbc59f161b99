/**
 * What a season came to, as both parties sign it: text that is kept and printed for good, so its shape is frozen.
 */
import type { OpenPointKind } from './open-points.ts';

export const CLOSING_FORMAT = 'huskledger-closing/1';

/** Every figure is a decimal string; amounts are in the agreement's currency, above zero where the buyer owes. */
export interface ClosingStatement {
  readonly format: typeof CLOSING_FORMAT;
  readonly agreement: {
    readonly id: string;
    readonly number: string;
    /** SHA-256 of each version's document, oldest first. */
    readonly versions: readonly string[];
  };
  readonly seller: string;
  readonly buyer: string;
  readonly currency: string;
  readonly drawnUpOn: string;
  readonly journal: {
    readonly entries: string;
    /** The fingerprint of the last entry. */
    readonly head: string;
    /** RFC 6962 over the entries' documents. */
    readonly root: string;
  };
  readonly loads: {
    readonly settled: string;
    readonly refused: string;
    readonly void: string;
    readonly unsettled: string;
  };
  /** Null where no volume was agreed; in its own unit and weight. */
  readonly committed: {
    readonly amount: string;
    readonly unit: string;
    readonly weight: string;
    readonly tolerancePercent: string | null;
    /** Rounded to six decimals. */
    readonly delivered: string;
    readonly standing: string;
  } | null;
  readonly money: {
    readonly settled: string;
    readonly invoiced: string;
    readonly paid: string;
    readonly balance: string;
  };
  readonly questions: {
    readonly decided: string;
    readonly withdrawn: string;
    readonly agreed: string;
  };
  /** What both sides carry over by signing. */
  readonly carried: readonly {
    readonly kind: OpenPointKind;
    readonly words: string;
    readonly amount: string | null;
  }[];
}
