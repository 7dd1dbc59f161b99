/**
 * What advice, or a link to come by, is about: one lot, one offer or one agreement, as it is called in a sentence.
 */

/** Exactly one of the three. */
export type Subject =
  | { readonly lotId: string }
  | { readonly offerId: string }
  | { readonly agreementId: string };

export type SubjectKind = 'lot' | 'offer' | 'agreement';

export function subjectKind(subject: Subject): SubjectKind {
  if ('lotId' in subject) return 'lot';
  return 'offerId' in subject ? 'offer' : 'agreement';
}

export function subjectId(subject: Subject): string {
  if ('lotId' in subject) return subject.lotId;
  return 'offerId' in subject ? subject.offerId : subject.agreementId;
}

/** The numbers by which it is known; what is not known is left out of the words. */
export interface SubjectNumbers {
  readonly lotNumber: number | null;
  readonly agreementNumber: string | null;
}

/**
 * "lot 3", "the offer on lot 3", "the proposal on agreement L3-A7F2", "agreement L3-A7F2"; without numbers "the lot",
 * "the offer", "the agreement".
 */
export function subjectInWords(kind: SubjectKind, { lotNumber, agreementNumber }: SubjectNumbers): string {
  const lot = lotNumber === null ? undefined : `lot ${lotNumber}`;
  const agreement = agreementNumber === null ? undefined : `agreement ${agreementNumber}`;
  switch (kind) {
    case 'lot':
      return lot ?? 'the lot';
    case 'agreement':
      return agreement ?? 'the agreement';
    case 'offer':
      if (lot !== undefined) return `the offer on ${lot}`;
      return agreement === undefined ? 'the offer' : `the proposal on ${agreement}`;
  }
}
