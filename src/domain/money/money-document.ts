/**
 * A document about money as it was issued: an invoice, an advance, a note that puts one right, interest or a fee.
 * It is written once and holds all that is printed on it; every figure is a decimal string, amounts with the currency's
 * decimals. This format is frozen: what was issued must print the same for years.
 */

export const DOCUMENT_FORMAT = 'huskledger-document/1';

export const DOCUMENT_KINDS = ['invoice', 'advance', 'credit-note', 'debit-note', 'interest', 'fee'] as const;
export type DocumentKind = (typeof DOCUMENT_KINDS)[number];

/** What a note about a season as a whole rests on: an agreed rule, or an earlier season that is sealed. */
export const SEASON_RULES = ['shortfall', 'surplus', 'true-up', 'brought-forward', 'past-season'] as const;
export type SeasonRule = (typeof SEASON_RULES)[number];

/** What a note about a season is for, after its name. */
export const SEASON_RULE_WORDS: Readonly<Record<SeasonRule, string>> = {
  shortfall: 'for the volume that is short',
  surplus: 'for the volume beyond the agreed',
  'true-up': 'for the season’s average',
  'brought-forward': 'brought forward from a sealed season',
  'past-season': 'for a season that is sealed',
};

/** What its sum is called on it. */
export const SEASON_SUM_NAMES: Readonly<Record<SeasonRule, string>> = {
  shortfall: 'For the volume that is short',
  surplus: 'For the volume beyond the agreed',
  'true-up': 'By the season’s average',
  'brought-forward': 'Balance brought forward',
  'past-season': 'For a sealed season',
};

export function isSeasonRule(text: string | undefined): text is SeasonRule {
  return SEASON_RULES.some((rule) => rule === text);
}

/** How a document is called before its number: "Invoice 17". */
export const DOCUMENT_NAMES: Readonly<Record<DocumentKind, string>> = {
  invoice: 'Invoice',
  advance: 'Advance invoice',
  'credit-note': 'Credit note',
  'debit-note': 'Debit note',
  interest: 'Interest invoice',
  fee: 'Fee invoice',
};

/** The load that a line is about. */
export interface LineLoad {
  readonly ticket: string;
  readonly deliveredOn: string;
}

/** quantity × rate, rounded once; above zero is owed by the buyer to the seller. */
export interface DocumentLine {
  readonly load: LineLoad | null;
  readonly label: string;
  readonly quantity: string;
  /** As in a settlement's lines: "lb", "bushel", "short-ton", "load", …, or the currency for a percent. */
  readonly unit: string;
  readonly rate: string;
  readonly amount: string;
  /** The derivation in one line of figures. */
  readonly how: string;
}

/** What is taken off; `amount` is above zero and lowers what is to be paid (on a credit note it may be below). */
export interface DeductionLine extends DocumentLine {
  /** To whom the buyer pays it on; null where the buyer keeps it. */
  readonly payee: string | null;
}

/** An advance that was invoiced before for a load on this document, and is taken off it. */
export interface AdvanceTaken {
  readonly load: LineLoad;
  /** The advance invoice's own number and date. */
  readonly number: string;
  readonly issuedOn: string;
  /** Above zero; lowers what is to be paid. */
  readonly amount: string;
}

/** Another document that this one names. */
export interface NamedDocument {
  readonly kind: DocumentKind;
  readonly number: string;
  readonly issuedOn: string;
}

export interface MoneyDocument {
  readonly format: typeof DOCUMENT_FORMAT;
  readonly kind: DocumentKind;
  /** Of a note about a season as a whole; absent on all others. */
  readonly season?: SeasonRule;
  /** Counted for each seller without a gap: "17". */
  readonly number: string;
  readonly agreement: { readonly number: string; readonly version: string; readonly fingerprint: string };
  readonly seller: string;
  readonly buyer: string;
  /** Who drew it up: the buyer where they agreed on self-billing. */
  readonly issuedBy: 'seller' | 'buyer';
  /** The feed by its parts. */
  readonly feed: string;
  /** Local dates in the agreement's time zone. */
  readonly issuedOn: string;
  readonly dueOn: string;
  /** The days that it covers: of deliveries, or of interest; null for a fee. */
  readonly period: { readonly from: string; readonly to: string } | null;
  /** ISO 4217. */
  readonly currency: string;
  /** What a note puts right, or what interest or a fee is for; empty for others. */
  readonly corrects: readonly NamedDocument[];
  /** Why, in words; null where its kind says it all. */
  readonly reason: string | null;
  readonly lines: readonly DocumentLine[];
  readonly deductions: readonly DeductionLine[];
  readonly advances: readonly AdvanceTaken[];
  readonly totals: {
    /** Sum of `lines`. */
    readonly goods: string;
    /** Sums of what is taken off, above zero. */
    readonly deductions: string;
    readonly advances: string;
    /** goods − deductions − advances; below zero on a credit note. */
    readonly payable: string;
  };
  /** Lenders with a lien on the feed, to whom payment is made out together with the seller. */
  readonly jointPayees: readonly string[];
  /** Terms of payment, discount and interest, in sentences. */
  readonly terms: readonly string[];
}

/** "Invoice 17". */
export function documentName({ kind, number }: Pick<NamedDocument, 'kind' | 'number'>): string {
  return `${DOCUMENT_NAMES[kind]} ${number}`;
}
