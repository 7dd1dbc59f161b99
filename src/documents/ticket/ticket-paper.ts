/**
 * Everything that a scale ticket is printed from, as it reads: what weighmaster statutes ask of one (date, what was
 * weighed, seller, buyer, gross, tare, net, vehicle and plate, place, weigher, serial number). An entry that nobody made
 * is absent here, and struck out on the paper.
 */

/** One of the two weights. */
export interface TicketWeight {
  /** "78,220 lb". */
  readonly weight: string;
  /** On the agreement's wall clock: "2026-09-14 21:40". */
  readonly at: string;
  /** Its scale's name; undefined where none is named. */
  readonly scale: string | undefined;
}

export interface TicketScale {
  readonly name: string;
  readonly owner: string;
  readonly place: string;
  /** "120,000 lb by 20 lb". */
  readonly range: string;
  readonly accuracyClass: string;
  readonly isLegalForTrade: boolean;
  readonly certificate: string | undefined;
  /** How its test stood on each day it weighed for this ticket, in sentences. */
  readonly test: readonly string[];
  /** A test that had run out, or none: said in heavier type. */
  readonly isDoubtful: boolean;
}

/** A version of the ticket after the first. */
export interface TicketCorrection {
  readonly version: string;
  readonly at: string;
  readonly reason: string;
  readonly isVoid: boolean;
  /** "Gross 78,220 lb, was 78,320 lb". */
  readonly changes: readonly string[];
}

export interface TicketPaper {
  readonly ticket: string;
  readonly agreement: string;
  readonly seller: string;
  readonly buyer: string;
  /** What was weighed, with the parts of the ear that it holds. */
  readonly feed: string;
  /** The local date of delivery. */
  readonly date: string;
  readonly timeZone: string;
  readonly gross: TicketWeight;
  readonly tare: TicketWeight;
  /** "47,120 lb". */
  readonly net: string;
  /** What is said where the two weights differ in scale or day. */
  readonly apart: readonly string[];
  readonly truck: string | undefined;
  readonly plate: string | undefined;
  readonly weigher: string | undefined;
  readonly haul: string | undefined;
  readonly sample: string | undefined;
  readonly moisture: string | undefined;
  /** Each once. */
  readonly scales: readonly TicketScale[];
  readonly version: string;
  readonly corrections: readonly TicketCorrection[];
  /** Why it is void; undefined for one that stands. */
  readonly voidReason: string | undefined;
  /** The entry of the agreement's journal that holds it. */
  readonly entry: { readonly sequence: string; readonly fingerprint: string };
}
