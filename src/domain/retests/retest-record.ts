/**
 * All of one question, as its page shows it and its paper prints it: figures as they were recorded, words in sentences. An
 * arbiter must be able to read it alone.
 */
import type { Questioned } from '../agreement/retest-rules.ts';
import type { LocalDate } from '../dates/local-date.ts';
import type { NamedDocument } from '../money/money-document.ts';
import type { Side } from './costs.ts';
import type { DecidedBecause } from './course.ts';
import type { Tester } from './figures.ts';

export interface RecordedPart {
  readonly part: string;
  readonly seal: string;
  readonly isAirtight: boolean;
  readonly keptWhere: string;
  readonly keptUntil: string | null;
  readonly handovers: readonly {
    /** ISO 8601, UTC. */
    readonly handedAt: string;
    readonly toWhom: string;
    readonly keptWhere: string;
    readonly keptUntil: string | null;
    readonly isSealIntact: boolean;
  }[];
}

export interface RecordedScale {
  readonly name: string;
  readonly accuracyClass: string;
  readonly division: string;
  readonly unit: string;
  readonly isLegalForTrade: boolean;
  readonly certificate: string | null;
}

export interface RecordedWeighing {
  readonly gross: string;
  readonly tare: string;
  readonly unit: string;
  /** Undefined where the ticket names none. */
  readonly grossScale: RecordedScale | undefined;
  readonly tareScale: RecordedScale | undefined;
}

export interface RecordedFigure {
  readonly id: string;
  readonly tester: Tester;
  /** "the referee, Bell Reach Referees". */
  readonly testerName: string;
  /** The laboratory's or the scale's name. */
  readonly testedBy: string;
  readonly method: string | null;
  readonly value: string;
  readonly testedOn: string;
  /** Of the part that was opened. */
  readonly seal: string | null;
  readonly weighing: RecordedWeighing | undefined;
  readonly charge: string;
  readonly paidBy: Side;
  /** SHA-256 of the report. */
  readonly report: string;
  /** Which side entered it, and when. */
  readonly by: Side;
  readonly enteredOn: LocalDate;
  readonly standing: 'counts' | 'unanswered' | 'contested' | 'taken-back';
  /** The day of the other side's word, or of the day from which it counts without one. */
  readonly answeredOn: LocalDate | null;
  /** It counts since nobody answered in time, or would from `answeredOn`. */
  readonly isUnanswered: boolean;
  /** Why it is contested. */
  readonly contested: string | null;
}

export interface RecordedProposal {
  readonly id: string;
  readonly by: Side;
  readonly on: LocalDate;
  readonly ending: 'withdraw' | 'agree';
  readonly value: string | null;
  readonly bearer: Side | 'split';
  readonly reason: string;
  readonly answer: 'confirmed' | 'refused' | 'withdrawn' | null;
  readonly answeredOn: LocalDate | null;
  readonly answerReason: string | null;
}

export interface RecordedEnding {
  readonly ending: 'decided' | 'withdrawn' | 'agreed';
  readonly because: DecidedBecause | 'both-confirmed';
  readonly inWords: string;
  readonly value: string;
  readonly on: LocalDate;
  readonly sellerBears: string;
  readonly buyerBears: string;
  /** What the buyer owes more by it, below zero for less. */
  readonly changed: string;
}

export interface RetestRecord {
  readonly id: string;
  readonly agreementId: string;
  readonly agreement: string;
  /** The version that its first load was delivered under, which its rule is from. */
  readonly agreementVersion: string;
  /** Of that version. */
  readonly agreementFingerprint: string;
  readonly seller: string;
  readonly buyer: string;
  readonly currency: string;
  readonly timeZone: string;
  readonly about: Questioned;
  /** "Starch", "Net weight". */
  readonly name: string;
  readonly unit: string;
  readonly sample: string | null;
  readonly ticket: string | null;
  readonly asker: Side;
  readonly askedOn: LocalDate;
  readonly reason: string;
  readonly first: string;
  /** Of a laboratory's figure: who reported it, by which method and when, as far as that was said. */
  readonly firstReport:
    | {
        readonly laboratory: string | null;
        readonly method: string | null;
        readonly reportedOn: string | null;
      }
    | undefined;
  readonly firstWeighing: RecordedWeighing | undefined;
  readonly claimed: string;
  readonly loads: readonly {
    readonly loadId: string;
    readonly ticket: string;
    readonly deliveredOn: string;
    /** Open: when it was asked, and now. Ended: just before the ending, and by it. Null before it was priced. */
    readonly before: string | null;
    readonly now: string | null;
  }[];
  readonly taking: { readonly takenAt: string; readonly takenBy: string; readonly how: string } | undefined;
  readonly parts: readonly RecordedPart[];
  /** How it is decided, by when tests are due and what counts without them, and who pays. */
  readonly rule: readonly string[];
  readonly referee: string | null;
  /** Days for each round of tests. */
  readonly testDays: string;
  /** Oldest first. */
  readonly figures: readonly RecordedFigure[];
  /** Of a weight with a second one: how far they lie apart and may, in pounds. */
  readonly weights:
    | {
        readonly apart: string;
        readonly allowed: string;
        /** How far each of the four weighings may be off; none where divisions are counted instead. */
        readonly tolerances:
          | Readonly<Record<'gross' | 'tare', { readonly first: string; readonly second: string }>>
          | undefined;
      }
    | undefined;
  readonly proposals: readonly RecordedProposal[];
  /** What is called for, while it is open. */
  readonly calls:
    | {
        readonly sentences: readonly string[];
        readonly testers: readonly Tester[];
        readonly since: LocalDate;
        readonly dueOn: LocalDate;
        /** Days left; below zero where it only waits for an answer. */
        readonly daysLeft: number;
      }
    | undefined;
  /** What its rule says today where that is not carried out yet, and why it could not be. */
  readonly obstacle: string | undefined;
  readonly ending: RecordedEnding | undefined;
  /** Held of invoices now, in all. */
  readonly held: string;
  /** Notes and fees that followed. */
  readonly documents: readonly (NamedDocument & { readonly id: string; readonly payable: string })[];
}
