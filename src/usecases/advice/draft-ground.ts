/**
 * What an adviser's draft starts from: the terms as they stand now, and whose names and number stay in it.
 */
import { NO_ONE_YET } from '../../domain/lots/lot-document.ts';
import type { Transaction } from '../../store/open-store.ts';
import type { AdviceRow } from '../../store/rows/advice-rows.ts';
import { readLot } from '../../store/rows/lot-rows.ts';
import { readOfferVersions } from '../../store/rows/offer-rows.ts';
import { findAgreement } from '../agreements/find-agreement.ts';
import { findLot, lotOf } from '../lots/find-lot.ts';
import { figuresOf } from '../offers/read-offer.ts';
import { badInput } from '../read-input-rows.ts';

export interface DraftGround {
  /** The agreement file as it stands. */
  readonly document: Readonly<Record<string, unknown>>;
  /** A lot's own tests, as figures by measure. */
  readonly lotTests: readonly Readonly<Record<string, string>>[];
}

/** Keys that a draft keeps as they are. */
export const DRAFT_KEPT = ['id', 'seller', 'buyer', 'feed', 'currency', 'timeZone'] as const;

/** Refuses `not-found`, and `bad-input` for a proposal that closes an agreement: it has no terms. */
export async function draftGround(tx: Transaction, advice: AdviceRow): Promise<DraftGround> {
  const { lotId, offerId, agreementId, partyId, partyName } = advice;
  if (lotId !== null) {
    const row = await findLot(tx, lotId);
    const lot = lotOf(row.document);
    const names = {
      ...NO_ONE_YET,
      seller: row.sellerName,
      ...(partyId === row.sellerId ? {} : { buyer: partyName }),
    };
    return { document: { ...lot.asking, ...names }, lotTests: (lot.tests ?? []).map(figuresOf) };
  }
  if (offerId !== null) {
    if (advice.purpose === 'closing') {
      throw badInput([
        { column: 'terms', message: 'are not what a proposal to close an agreement is about' },
      ]);
    }
    const newest = (await readOfferVersions(tx, offerId)).at(-1);
    if (!newest) throw new Error('An offer has no version');
    const id = (await tx.offer.findUnique({ where: { id: offerId }, select: { lotId: true } }))?.lotId;
    const lot = id ? await readLot(tx, id) : undefined;
    return {
      document: JSON.parse(newest.document) as Record<string, unknown>,
      lotTests: lot ? (lotOf(lot.document).tests ?? []).map(figuresOf) : [],
    };
  }
  const { row } = await findAgreement(tx, agreementId ?? '');
  return { document: JSON.parse(row.document) as Record<string, unknown>, lotTests: [] };
}
