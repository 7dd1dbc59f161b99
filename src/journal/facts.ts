/**
 * What the journal remembers of each row: the row's figures as strings, as they stand in the database. `verify` builds
 * the same documents from the rows again, so a field that is left out here is a field that nobody watches.
 * These shapes are frozen once entries exist.
 */
import type { MoneyFactsByKind } from './money-facts.ts';
import type { RetestFactsByKind } from './retest-facts.ts';
import type { SeasonFactsByKind } from './season-facts.ts';

export interface AgreementFact {
  readonly number: string;
  readonly seller: string;
  readonly buyer: string;
  readonly version: string;
  /** SHA-256 of the agreement's document. */
  readonly fingerprint: string;
}

export interface QuoteFact {
  readonly series: string;
  readonly date: string;
  readonly price: string;
  /** Of a correction alone. */
  readonly version?: string;
  readonly reason?: string;
}

export interface LoadFact {
  readonly ticket: string;
  /** ISO 8601 in UTC, with milliseconds. */
  readonly deliveredAt: string;
  readonly deliveredOn: string;
  readonly gross: string;
  readonly tare: string;
  readonly unit: string;
  readonly distance: string | null;
  readonly distanceUnit: string | null;
  readonly truck: string | null;
  readonly sample: string | null;
  // What came later to be asked of a ticket: absent where there is none, so that older entries stay as they are.
  readonly tareAt?: string;
  readonly grossScale?: string;
  readonly tareScale?: string;
  readonly moistureReading?: string;
  readonly plate?: string;
  readonly weigher?: string;
  /** SHA-256 of a photo of the ticket. */
  readonly photo?: string;
}

/** A ticket as it was put right: 2 is its first correction. */
export interface LoadVersionFact extends LoadFact {
  readonly load: string;
  readonly version: string;
  readonly void: boolean;
  readonly reason: string;
}

export interface ResultFact {
  readonly sample: string;
  readonly laboratory: string | null;
  readonly method: string | null;
  readonly reportedOn: string | null;
  readonly basis: string;
  /** By measure, those reported. */
  readonly figures: Readonly<Record<string, string>>;
  /** Of a correction alone. */
  readonly version?: string;
  readonly reason?: string;
  // Absent where they are not known.
  readonly dryMatterMethod?: string;
  readonly enteredBy?: string;
  /** SHA-256 of the report that is attached. */
  readonly report?: string;
}

export interface ResultAnswerFact {
  readonly result: string;
  readonly party: string;
  readonly answer: string;
  readonly reason: string | null;
}

/** How a sample was taken. */
export interface SampleTakingFact {
  readonly sample: string;
  /** ISO 8601 in UTC, with milliseconds. */
  readonly takenAt: string;
  readonly takenBy: string;
  readonly how: string;
}

/** A sealed part of a sample. */
export interface SamplePartFact {
  readonly sample: string;
  readonly part: string;
  readonly seal: string;
  readonly airtight: boolean;
  readonly keptWhere: string;
  readonly keptUntil: string | null;
}

export interface PartHandoverFact {
  readonly part: string;
  /** ISO 8601 in UTC, with milliseconds. */
  readonly handedAt: string;
  readonly toWhom: string;
  readonly keptWhere: string;
  readonly keptUntil: string | null;
  readonly sealIntact: boolean;
}

export interface ElectionFact {
  readonly load: string;
  readonly series: string;
  readonly date: string;
}

export interface ChoiceFact {
  readonly load: string;
  readonly choice: string;
  /** Of a refusal that says it. */
  readonly wentTo?: string;
}

export interface SettlementFact {
  readonly load: string;
  readonly version: string;
  readonly agreementVersion: string;
  /** The version of the ticket, where it is not the first. */
  readonly loadVersion?: string;
  readonly result: string | null;
  readonly status: string;
  readonly currency: string;
  readonly total: string;
  readonly lines: readonly {
    readonly label: string;
    readonly quantity: string;
    readonly unit: string;
    readonly rate: string;
    readonly amount: string;
    readonly how: string;
  }[];
  readonly prices: readonly { readonly reference: string; readonly price: string; readonly quote: string }[];
  /** Ids of the quotes that it rests on, in order of id. */
  readonly quotes: readonly string[];
}

/** A signature under the version of an offer. */
export interface SignatureFact {
  readonly party: string;
  readonly person: string;
  readonly name: string;
  readonly fingerprint: string;
  readonly signedAt: string;
}

/** How both parties signed a version of the agreement here. */
export interface SigningFact {
  readonly agreementVersion: string;
  readonly seller: string;
  /** The agreement's number among its seller's; null for an amendment. */
  readonly serial: string | null;
  readonly offer: string;
  readonly offerVersion: string;
  readonly lot: string | null;
  readonly effectiveFrom: string | null;
  /** By the party's id. */
  readonly signatures: readonly SignatureFact[];
}

/** The early end that both signed. */
export interface ClosingFact {
  readonly lastDeliveryOn: string;
  readonly offer: string;
  readonly offerVersion: string;
  /** SHA-256 of the document that both signed. */
  readonly fingerprint: string;
  readonly signatures: readonly SignatureFact[];
}

/** What one side proposes to put right after settlement. */
export interface CorrectionFact {
  readonly subject: string;
  readonly subjectId: string;
  /** The figures as they are to be, as canonical JSON. */
  readonly document: string;
  readonly reason: string;
  readonly party: string;
}

export interface CorrectionAnswerFact {
  readonly correction: string;
  readonly answer: string;
  readonly reason: string | null;
  readonly party: string;
}

/** A truck that was weighed full, its tare to come. */
export interface WeighingFact {
  readonly ticket: string;
  /** ISO 8601 in UTC, with milliseconds. */
  readonly weighedAt: string;
  readonly gross: string;
  readonly unit: string;
  readonly truck: string | null;
  readonly plate: string | null;
  readonly scale: string | null;
  readonly sample: string | null;
  readonly weigher: string | null;
  readonly moistureReading: string | null;
}

export interface TicketSeriesFact {
  readonly prefix: string;
  readonly width: string;
  readonly first: string;
}

/** A ticket number that no load of the agreement has: spoiled, or used for something else. */
export interface SpentTicketFact {
  readonly ticket: string;
  readonly use: string;
  readonly reason: string;
}

/** What was settled about a price series: its source, who enters its quotes, and the days to contest one. */
export interface SeriesTermsFact {
  readonly series: string;
  readonly source: string;
  readonly enteredBy: string;
  readonly contestDays: string;
}

interface FactsByKind extends MoneyFactsByKind, RetestFactsByKind, SeasonFactsByKind {
  readonly agreement: AgreementFact;
  readonly quote: QuoteFact;
  readonly load: LoadFact;
  readonly result: ResultFact;
  readonly election: ElectionFact;
  readonly choice: ChoiceFact;
  readonly settlement: SettlementFact;
  readonly signing: SigningFact;
  readonly 'load-version': LoadVersionFact;
  readonly 'result-answer': ResultAnswerFact;
  readonly 'sample-taking': SampleTakingFact;
  readonly 'sample-part': SamplePartFact;
  readonly 'part-handover': PartHandoverFact;
  readonly correction: CorrectionFact;
  readonly 'correction-answer': CorrectionAnswerFact;
  readonly closing: ClosingFact;
  readonly weighing: WeighingFact;
  readonly 'ticket-series': TicketSeriesFact;
  readonly 'spent-ticket': SpentTicketFact;
  readonly 'series-terms': SeriesTermsFact;
}
export type FactKind = keyof FactsByKind;

/** A fact with its kind, such that the two fit. */
export type Fact = {
  [Kind in FactKind]: { readonly kind: Kind; readonly fact: FactsByKind[Kind] };
}[FactKind];
