/**
 * Expected refusals: an ordered, closed list. Their order is the order in which a use case looks for them; each has one
 * HTTP status and one exit status. Messages are fit to show to whoever asked.
 */

export const REFUSAL_CODES = [
  'not-signed-in',
  'wrong-sign-in',
  'too-many-tries',
  'not-allowed',
  'bad-input',
  'key-reused',
  'not-found',
  'first-run-over',
  'invitation-void',
  'agreement-taken',
  'lot-closed',
  'offer-open',
  'offer-over',
  'offer-moved',
  'offer-lapsed',
  'agreement-closed',
  'season-closed',
  'advice-over',
  'delivered-already',
  'changed-meanwhile',
  'correction-open',
  'correction-over',
  'retest-open',
  'retest-over',
  'too-late',
  'ended-already',
  'ticket-taken',
  'result-taken',
  'quote-taken',
  'election-taken',
  'not-yours',
  'already-settled',
  'partner-there',
  'last-owner',
  'unusual',
  'not-ready',
] as const;
export type RefusalCode = (typeof REFUSAL_CODES)[number];

/** One fault of what was given: in which row (from 0) of how many, in which column or at which path. */
export interface Problem {
  readonly row?: number;
  readonly column?: string;
  readonly message: string;
}

export class Refusal extends Error {
  readonly code: RefusalCode;
  /** All faults of the input, where the code is `bad-input`. */
  readonly problems: readonly Problem[];

  constructor(code: RefusalCode, message: string, problems: readonly Problem[] = []) {
    super(message);
    this.code = code;
    this.problems = problems;
  }
}

/** What each refusal is over HTTP and as an exit status. */
export const REFUSAL_OUTCOMES: Readonly<
  Record<RefusalCode, { readonly http: number; readonly exit: 1 | 2 }>
> = {
  'not-signed-in': { http: 401, exit: 1 },
  'wrong-sign-in': { http: 401, exit: 1 },
  'too-many-tries': { http: 429, exit: 1 },
  'not-allowed': { http: 403, exit: 1 },
  'bad-input': { http: 400, exit: 1 },
  'key-reused': { http: 409, exit: 1 },
  'not-found': { http: 404, exit: 1 },
  'first-run-over': { http: 409, exit: 1 },
  'invitation-void': { http: 410, exit: 1 },
  'agreement-taken': { http: 409, exit: 1 },
  'lot-closed': { http: 409, exit: 1 },
  'offer-open': { http: 409, exit: 1 },
  'offer-over': { http: 409, exit: 1 },
  'offer-moved': { http: 409, exit: 1 },
  'offer-lapsed': { http: 409, exit: 1 },
  'agreement-closed': { http: 409, exit: 1 },
  'season-closed': { http: 409, exit: 1 },
  'advice-over': { http: 409, exit: 1 },
  'delivered-already': { http: 409, exit: 1 },
  'changed-meanwhile': { http: 409, exit: 1 },
  'correction-open': { http: 409, exit: 1 },
  'correction-over': { http: 409, exit: 1 },
  'retest-open': { http: 409, exit: 1 },
  'retest-over': { http: 409, exit: 1 },
  'too-late': { http: 409, exit: 1 },
  'ended-already': { http: 409, exit: 1 },
  'ticket-taken': { http: 409, exit: 1 },
  'result-taken': { http: 409, exit: 1 },
  'quote-taken': { http: 409, exit: 1 },
  'election-taken': { http: 409, exit: 1 },
  'not-yours': { http: 403, exit: 1 },
  'already-settled': { http: 409, exit: 1 },
  'last-owner': { http: 409, exit: 1 },
  'partner-there': { http: 409, exit: 1 },
  unusual: { http: 409, exit: 1 },
  'not-ready': { http: 409, exit: 2 },
};
