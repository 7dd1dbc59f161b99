/**
 * How an offer stands, in one sentence that both sides read alike. What ended it is told neutrally: nothing of any other
 * buyer but that there was one.
 */
import type { OfferState, Purpose } from './offer.ts';

export type Side = 'seller' | 'buyer';

export interface OfferStanding {
  readonly purpose: Purpose;
  readonly state: OfferState;
  readonly seller: string;
  readonly buyer: string;
  /** The newest version. */
  readonly version: number;
  /** Who sent it. */
  readonly by: Side;
  /** Whose signature stands under it. */
  readonly signedBy: readonly Side[];
  /** The moment until which it stands: "2 December, 14:05". */
  readonly until: string;
  readonly lotNumber: number | undefined;
}

/** "Tarn Hollow Dairy sent version 2. It waits for the answer of Quillback Acres until 2 December, 14:05." */
export function offerStandingInWords(offer: OfferStanding): string {
  const { purpose, state, seller, buyer, version, by, until, lotNumber } = offer;
  switch (state) {
    case 'open':
      return openWords(offer);
    case 'lapsed':
      return `Version ${version} stood until ${until}, and nobody can sign it any more. Either side may send a new version, which opens it again.`;
    case 'agreed':
      return `Both sides have signed version ${version}. ${AGREED[purpose]}`;
    case 'withdrawn':
      return `${by === 'seller' ? seller : buyer} withdrew it. Nothing was agreed.`;
    case 'declined':
      return `${by === 'seller' ? buyer : seller} declined it. Nothing was agreed.`;
    case 'lot-sold':
      return `Lot ${lotNumber} of ${seller} went to another buyer, so this offer is over.`;
    case 'lot-withdrawn':
      return `${seller} no longer offers lot ${lotNumber}, so this offer is over.`;
  }
}

const AGREED: Readonly<Record<Purpose, string>> = {
  agreement: 'It is an agreement.',
  amendment: 'The agreement is amended.',
  closing: 'The agreement closes early.',
};

function openWords({ purpose, seller, buyer, version, by, signedBy, until }: OfferStanding): string {
  const names = { seller, buyer };
  const other = (side: Side) => names[side === 'seller' ? 'buyer' : 'seller'];
  const [signed] = signedBy;
  if (signed !== undefined) {
    const becomes = {
      agreement: 'It becomes an agreement',
      amendment: 'The agreement is amended',
      closing: 'The agreement closes early',
    }[purpose];
    return `${names[signed]} has signed version ${version}. ${becomes} if ${other(signed)} signs the same version by ${until}.`;
  }
  return `${names[by]} sent version ${version}. It waits for the answer of ${other(by)} until ${until}.`;
}
