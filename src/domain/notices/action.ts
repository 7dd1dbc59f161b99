/**
 * What waits for a party's own act, in sentences that say who waits, for what, and until when.
 */
import { dayInWords } from '../dates/day-words.ts';
import type { LocalDate } from '../dates/local-date.ts';
import type { Purpose } from '../offers/offer.ts';

export interface ActionOffer {
  readonly purpose: Purpose;
  /** The other party. */
  readonly other: string;
  /** Whether it is the first version, which the other side sent. */
  readonly isFirst: boolean;
  readonly lotNumber: number | null;
  readonly agreementNumber: string | null;
  /** Nobody answered in time; then it is the reader's own. */
  readonly isLapsed: boolean;
  /** The other side's signature stands under it. */
  readonly isSignedByOther: boolean;
  /** The last day on which it stands. */
  readonly until: LocalDate | string;
  readonly today: LocalDate | string;
}

/** "Tarn Hollow Dairy’s offer on lot 3 waits for your answer; it stands until 2 December." */
export function offerActionInWords(offer: ActionOffer): string {
  const { other, isFirst, isLapsed, isSignedByOther } = offer;
  const day = dayInWords(offer.until, offer.today);
  const about =
    offer.purpose === 'agreement' ? `lot ${offer.lotNumber}` : `agreement ${offer.agreementNumber}`;
  const [theirs, mine, act] = {
    agreement: [
      isFirst ? `offer on ${about}` : `new version of the offer on ${about}`,
      `offer to ${other} on ${about}`,
      `signed the offer on ${about}`,
    ],
    amendment: [
      `proposal to amend ${about}`,
      `proposal to ${other} to amend ${about}`,
      `signed the amendment of ${about}`,
    ],
    closing: [
      `proposal to close ${about} early`,
      `proposal to ${other} to close ${about} early`,
      `signed the early end of ${about}`,
    ],
  }[offer.purpose];
  if (isLapsed) {
    return `Your ${mine} stood until ${day}, and nobody answered. Send it again with more time, or withdraw it.`;
  }
  if (isSignedByOther) return `${other} ${act}. It waits for your signature until ${day}.`;
  return `${other}’s ${theirs} waits for your answer; it stands until ${day}.`;
}

export interface LotOver {
  readonly number: number;
  /** The lot's last day. */
  readonly until: LocalDate | string;
  readonly today: LocalDate | string;
  /** Offers on it that nobody has ended. */
  readonly open: number;
}

/** "Lot 3 was for sale until 20 December, and one offer on it is open. Give it a later last day, or withdraw it." */
export function lotOverInWords({ number, until, today, open }: LotOver): string {
  const offers = open === 1 ? 'one offer on it is' : `${open} offers on it are`;
  return `Lot ${number} was for sale until ${dayInWords(until, today)}, and ${offers} open. Give it a later last day, or withdraw it.`;
}
