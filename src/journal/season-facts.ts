/**
 * What the journal remembers of what two parties put to each other about a season. As in `facts.ts`, these shapes are frozen
 * once entries exist.
 */

export interface SeasonNoteFact {
  /** `difference` or `past-season`. */
  readonly kind: string;
  readonly load: string | null;
  readonly ofAgreement: string | null;
  /** A load of that agreement. */
  readonly ofLoad: string | null;
  readonly amount: string;
  readonly reason: string;
  readonly party: string;
}

export interface SeasonNoteAnswerFact {
  readonly note: string;
  readonly answer: string;
  readonly reason: string | null;
  /** The note of money that follows. */
  readonly document: string | null;
  readonly party: string;
}

export interface SeasonFactsByKind {
  readonly 'season-note': SeasonNoteFact;
  readonly 'season-note-answer': SeasonNoteAnswerFact;
}
