/**
 * Everything that stands on an invoice, as it is to be printed. Nothing is computed from it:
 * every figure is a decimal already printed for the reader ("1,986.85"), with "-" or "−" before a negative one.
 * Only the load strips carry numbers, and those are lengths in a picture.
 */
import type { DecimalMark } from '../pdf/table-columns.ts';
import type { LoadComposition } from '../strip/load-strip.ts';

export interface InvoiceData {
  /** One load, one day, or a whole season; a season's invoice begins with a table of its loads. */
  readonly kind: 'load' | 'day' | 'season';
  /** What it is called; an invoice where nothing is said. */
  readonly paper?: 'settlement';
  /** The invoice's own number. */
  readonly number: string;
  /** Printed date, where one was given. */
  readonly issuedOn?: string;
  readonly seller: string;
  readonly buyer: string;
  readonly agreement: {
    readonly id: string;
    readonly version?: string;
    /** SHA-256 of the agreement, 64 hexadecimal digits. */
    readonly fingerprint: string;
  };
  /** The feed in words that say which parts of the ear are in it. */
  readonly feed: string;
  /** ISO 4217 code. */
  readonly currency: string;
  /** How the figures below are printed. */
  readonly decimalMark: DecimalMark;
  /** Printed day ("2026-09-14") or period ("2026-09-14 to 2026-10-02") of delivery. */
  readonly delivered: string;
  readonly loads: readonly InvoiceLoad[];
  /** The unit that net weights are given in beside that of their scale. */
  readonly weightUnit: 'lb' | 'kg';
  /** Total of net weights in that unit, where the table of loads is to show it: "141,010". */
  readonly net?: string;
  /** Loads that are not on this invoice. */
  readonly absent: readonly InvoiceAbsent[];
  readonly total: string;
}

export interface InvoiceAbsent {
  /** In words: "waits: There is no result of sample S2 yet". */
  readonly why: string;
  /** Tickets. */
  readonly loads: readonly string[];
}

export interface InvoiceLoad {
  readonly ticket: string;
  /** Local date and time: "2026-09-14 21:40". */
  readonly deliveredAt: string;
  readonly truck?: string;
  /** In the scale's unit. */
  readonly gross: Measured;
  readonly tare: Measured;
  readonly net: Measured;
  /** Net in the invoice's `weightUnit`, without the unit. */
  readonly netConverted: string;
  readonly strip: LoadComposition;
  /** Percent as-fed, without the sign; absent where not tested. */
  readonly dryMatterPercent?: string;
  /** Percent of dry matter, without the sign; absent where not tested. */
  readonly starchPercent?: string;
  readonly tests?: InvoiceTests;
  readonly references: readonly InvoiceReference[];
  readonly lines: readonly InvoiceLine[];
  readonly total: string;
}

export type Measured = { readonly figure: string; readonly unit: string };

export interface InvoiceTests {
  readonly sample: string;
  /** How the laboratory reported: "as-fed" or "dry matter". */
  readonly basis: string;
  readonly laboratory?: string;
  /** Every measure, as the agreement used it; `unit` is empty for pH, else such as "% of dry matter". */
  readonly measures: readonly { readonly name: string; readonly figure: string; readonly unit: string }[];
}

export interface InvoiceReference {
  /** The agreement's name for it: "corn". */
  readonly name: string;
  /** With what the agreement makes of its quote; absent where the agreement fixes the price. */
  readonly series?: string;
  readonly quote: string;
  /** The printed date or dates of the quotes; empty for a fixed price. */
  readonly quotedOn: readonly string[];
  /** After basis, floor and ceiling. */
  readonly price: string;
  /** Of quote and price: "USD a bushel". */
  readonly unit: string;
}

export interface InvoiceLine {
  readonly label: string;
  readonly quantity: string;
  readonly unit: string;
  readonly rate: string;
  readonly amount: string;
  /** The derivation in figures. */
  readonly how: string;
}
