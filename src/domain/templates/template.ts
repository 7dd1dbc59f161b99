/**
 * A way in which the trade prices feed, as a whole agreement to start from. What is drawn is sound as it stands and is
 * meant to be bargained over: its figures are usual ones, not advice.
 */
import type { Feed } from '../agreement/measures.ts';

/** What every agreement needs whatever its formula. */
export interface TemplateBasics {
  readonly id: string;
  readonly seller: string;
  readonly buyer: string;
  readonly feed: Feed;
  /** An ISO 4217 code. */
  readonly currency: string;
  /** An IANA name. */
  readonly timeZone: string;
  /** Tonnes, where other parties have bushels and short tons. */
  readonly metric: boolean;
}

export interface Template {
  /** Never changed once it is in use. */
  readonly id: string;
  readonly name: string;
  /** When it suits, in one sentence. */
  readonly suits: string;
  /** What it does not measure, in one sentence: who bears that is left to luck. */
  readonly leavesToLuck: string;
  /** An agreement document that passes every check and raises no warning. */
  draw(basics: TemplateBasics): Record<string, unknown>;
}
