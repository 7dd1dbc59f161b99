/**
 * An agreement called by its number and the other party; an adviser, who is neither, reads both names.
 */
import type { AgreementSummary } from '../../usecases/agreements/read-agreement-list.ts';

/** "L3-A7F2 with Tarn Hollow Dairy", "L3-A7F2 between Quillback Acres and Tarn Hollow Dairy". */
export function withPartner({
  number,
  side,
  seller,
  buyer,
}: Pick<AgreementSummary, 'number' | 'side' | 'seller' | 'buyer'>): string {
  switch (side) {
    case 'seller':
      return `${number} with ${buyer}`;
    case 'buyer':
      return `${number} with ${seller}`;
    case 'adviser':
      return `${number} between ${seller} and ${buyer}`;
  }
}
