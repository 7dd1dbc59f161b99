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

/** Who stands on the other side of whoever it is told to; of a lot, its seller. */
export interface OtherSide {
  readonly name: string;
  readonly side: 'seller' | 'buyer';
}

/**
 * "lot 3", "the offer on lot 3", "the proposal on agreement L3-A7F2", "agreement L3-A7F2"; without numbers "the lot",
 * "the offer", "the agreement". With the other side: "lot 3 of Quillback Acres", "the offer of Tarn Hollow Dairy on lot 3",
 * "agreement L3-A7F2 with Quillback Acres".
 */
export function subjectInWords(
  kind: SubjectKind,
  { lotNumber, agreementNumber }: SubjectNumbers,
  other?: OtherSide,
): string {
  const ofSeller = other?.side === 'seller' ? ` of ${other.name}` : '';
  const ofBuyer = other?.side === 'buyer' ? ` of ${other.name}` : '';
  const lot = lotNumber === null ? undefined : `lot ${lotNumber}${ofSeller}`;
  const withOther = other === undefined ? '' : ` with ${other.name}`;
  const agreement = agreementNumber === null ? undefined : `agreement ${agreementNumber}${withOther}`;
  switch (kind) {
    case 'lot':
      return lot ?? 'the lot';
    case 'agreement':
      return agreement ?? 'the agreement';
    case 'offer':
      if (lot !== undefined) return `the offer${ofBuyer} on ${lot}`;
      return agreement === undefined ? 'the offer' : `the proposal on ${agreement}`;
  }
}
