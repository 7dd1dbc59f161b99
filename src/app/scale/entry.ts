/**
 * A weighing on its way from the phone to the record. It has an id of its own, by which the record takes it once however
 * often it is sent.
 */

export type EntryKind = 'load' | 'weigh-in' | 'weigh-out';

export interface Entry {
  /** A UUID made on the phone: the request's `Idempotency-Key`. */
  readonly id: string;
  /** The party as which it was saved. */
  readonly party: string;
  readonly agreementId: string;
  readonly kind: EntryKind;
  /** With the columns of a ticket. */
  readonly row: Readonly<Record<string, string>>;
  /** Milliseconds since 1970-01-01T00:00:00Z, by the phone's clock. */
  readonly savedAt: number;
  readonly photo?: Blob;
  /** Somebody said that unusual figures are right. */
  readonly isConfirmed: boolean;
  /** Why the record refused it; it stays until a person decides. */
  readonly refused?: { readonly code: string; readonly message: string };
}

/** What is kept of an entry that the record has. */
export interface SentEntry {
  readonly id: string;
  readonly ticket: string;
  readonly kind: EntryKind;
  readonly sentAt: number;
}

/** The address and body by which an entry reaches the record. */
export function requestOf(entry: Entry): { readonly path: string; readonly body: unknown } {
  const of = `/api/v1/agreements/${entry.agreementId}`;
  switch (entry.kind) {
    case 'load':
      return { path: `${of}/loads`, body: { loads: [entry.row], confirmed: entry.isConfirmed } };
    case 'weigh-in':
      return { path: `${of}/weighings`, body: { weighing: entry.row } };
    case 'weigh-out':
      return { path: `${of}/weighings/out`, body: { weighing: entry.row, confirmed: entry.isConfirmed } };
  }
}

/** What an answer means for the entry: taken, refused with a reason, or to be sent again later. */
export type Outcome =
  | { readonly is: 'taken' }
  | { readonly is: 'refused'; readonly code: string; readonly message: string }
  | { readonly is: 'signed-out' }
  | { readonly is: 'later' };

/** Reads an answer's status and body. A server that is at fault, or busy, is asked again later. */
export function outcomeOf(status: number, body: unknown): Outcome {
  if (status >= 200 && status < 300) return { is: 'taken' };
  if (status === 401) return { is: 'signed-out' };
  if (status === 408 || status === 425 || status === 429 || status >= 500) return { is: 'later' };
  const told = body as {
    readonly code?: unknown;
    readonly message?: unknown;
    readonly detail?: unknown;
  } | null;
  const message = [told?.detail, told?.message].find((text) => typeof text === 'string');
  return {
    is: 'refused',
    code: typeof told?.code === 'string' ? told.code : 'unknown',
    message: typeof message === 'string' ? message : 'The record did not take it.',
  };
}
