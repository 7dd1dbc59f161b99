/**
 * What the journal remembers of questions and retests. As in `facts.ts`, these shapes are frozen once entries exist.
 */

export interface RetestFact {
  readonly about: string;
  readonly sample: string | null;
  readonly load: string | null;
  readonly first: string;
  readonly firstVersion: string;
  readonly claimed: string;
  readonly reason: string;
  /** The agreed rule, as canonical JSON. */
  readonly rule: string;
  readonly party: string;
}

/** What was weighed on a second scale, gross and tare both. */
export interface SecondWeighing {
  readonly gross: string;
  readonly tare: string;
  readonly unit: string;
  readonly scale: string;
  readonly scaleVersion: string;
}

export interface RetestFigureFact {
  readonly retest: string;
  readonly tester: string;
  readonly value: string;
  readonly testedBy: string;
  readonly method: string | null;
  readonly part: string | null;
  /** A local date. */
  readonly testedOn: string;
  readonly weighing: SecondWeighing | null;
  readonly charge: string;
  readonly paidBy: string;
  readonly report: string;
  readonly party: string;
}

export interface RetestFigureAnswerFact {
  readonly figure: string;
  readonly answer: string;
  readonly reason: string | null;
  readonly party: string;
}

export interface RetestProposalFact {
  readonly retest: string;
  readonly ending: string;
  readonly value: string | null;
  readonly bearer: string;
  readonly reason: string;
  readonly party: string;
}

export interface RetestProposalAnswerFact {
  readonly proposal: string;
  readonly answer: string;
  readonly reason: string | null;
  readonly party: string;
}

/** No party: a decision is its rule's. */
export interface RetestEndingFact {
  readonly retest: string;
  readonly ending: string;
  readonly because: string;
  readonly value: string;
  readonly sellerBears: string;
  readonly buyerBears: string;
  readonly changed: string;
  /** Ids of the notes and the fee that followed, as canonical JSON. */
  readonly documents: string;
}

export interface RetestFactsByKind {
  readonly retest: RetestFact;
  readonly 'retest-figure': RetestFigureFact;
  readonly 'retest-figure-answer': RetestFigureAnswerFact;
  readonly 'retest-proposal': RetestProposalFact;
  readonly 'retest-proposal-answer': RetestProposalAnswerFact;
  readonly 'retest-ending': RetestEndingFact;
}
