/**
 * One agreement as its page shows it: what is in force today, every version with its signatures, what was delivered, how
 * it ends, and what is proposed about it.
 */

import { agreementName } from '../../domain/agreement/agreement-name.ts';
import { zoneCalendar } from '../../domain/dates/instant.ts';
import type { Purpose } from '../../domain/offers/offer.ts';
import { isSamePair } from '../../domain/parties/same-pair.ts';
import { agreementInWords, type Section } from '../../domain/words/agreement-words.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readAgreements } from '../../store/rows/agreement-rows.ts';
import { readLot } from '../../store/rows/lot-rows.ts';
import { readOffers } from '../../store/rows/offer-rows.ts';
import { readClosing, readSignings, type SignatureRow } from '../../store/rows/signing-rows.ts';
import { type Context, permit } from '../context.ts';
import { lotOf } from '../lots/find-lot.ts';
import { figuresOf } from '../offers/read-offer.ts';
import { recordedQuotes } from '../offers/read-offer-page.ts';
import { deliveredSoFar } from './delivered-so-far.ts';
import { type AgreedTerms, type FoundAgreement, findAgreement, sideOf, termsOn } from './find-agreement.ts';

export interface SignedBy {
  readonly party: string;
  /** As it was typed. */
  readonly name: string;
  /** ISO 8601, UTC. */
  readonly signedAt: string;
}

export interface AgreementVersion {
  readonly version: number;
  /** Loads delivered from this local date on are under it; null for the first. */
  readonly effectiveFrom: string | null;
  /** Whether a load delivered today is under it. */
  readonly isInForce: boolean;
  readonly sections: readonly Section[];
  readonly fingerprint: string;
  /** None for what was signed elsewhere. */
  readonly signatures: readonly SignedBy[];
}

export interface AgreementPage {
  readonly id: string;
  /** "Agreement 14 of Quillback Acres" */
  readonly name: string;
  /** The number in its file. */
  readonly number: string;
  readonly isSignedHere: boolean;
  readonly seller: string;
  readonly buyer: string;
  readonly side: 'seller' | 'buyer' | 'adviser';
  readonly timeZone: string;
  readonly now: number;
  /** Oldest first. */
  readonly versions: readonly AgreementVersion[];
  /** The newest version's file. */
  readonly document: Readonly<Record<string, unknown>>;
  readonly closing: { readonly lastDelivery: string; readonly signatures: readonly SignedBy[] } | undefined;
  /** What waits for signatures. */
  readonly proposal: { readonly offerId: string; readonly purpose: Purpose } | undefined;
  /** The lot that it is about, and where that lies, where the party may know. */
  readonly lot: { readonly id: string; readonly number: number; readonly address: string | null } | undefined;
  readonly lotTests: readonly Readonly<Record<string, string>>[];
  /** Against the agreed volume, in a sentence. */
  readonly delivered: string | undefined;
  /** The two have sealed another season, which this agreement can take up. */
  readonly hasSealedSeasons: boolean;
  /** Both have signed its own season shut; an adviser is not told. */
  readonly isSealed: boolean;
  /** Recorded quotes by the formula's own names. */
  readonly quotes: Readonly<Record<string, string>>;
}

/** Refuses `not-allowed`, and `not-found` for an agreement that is none of the caller's party's. */
export async function readAgreementPage(
  context: Context,
  { agreementId, locale }: { readonly agreementId: string; readonly locale: string },
): Promise<AgreementPage> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findAgreement(tx, agreementId);
    const { row, agreement } = found;
    const signings = await readSignings(tx, agreementId);
    const today = zoneCalendar(agreement.timeZone).dateAt(context.now());
    const inForce = termsOn(found, today);
    const serial = signings.find((signing) => signing.serial !== null)?.serial ?? null;
    const closing = await readClosing(tx, agreementId);
    const open = (await readOffers(tx)).find(
      (offer) => offer.agreementId === agreementId && offer.ending === null,
    );
    const signersOf = signersAmong(found);
    return {
      id: row.id,
      name: agreementName({ serial, number: row.number, seller: row.sellerName }),
      number: row.number,
      isSignedHere: serial !== null,
      seller: row.sellerName,
      buyer: row.buyerName,
      side: sideOf(row, context.caller),
      timeZone: agreement.timeZone,
      now: context.now(),
      versions: found.versions.map((terms) =>
        versionOf(terms, {
          isInForce: terms === inForce,
          signatures: signersOf(
            signings.find(({ versionId }) => versionId === terms.row.versionId)?.signatures ?? [],
          ),
        }),
      ),
      document: JSON.parse(row.document) as Record<string, unknown>,
      closing: closing && {
        lastDelivery: closing.lastDeliveryOn,
        signatures: signersOf(closing.signatures),
      },
      proposal: open && { offerId: open.id, purpose: open.purpose },
      ...(await lotParts(tx, signings.find(({ lotId }) => lotId !== null)?.lotId)),
      delivered: await deliveredSoFar(tx, { found, inForce, locale }),
      isSealed: row.isSealed,
      hasSealedSeasons: (await readAgreements(tx)).some(
        (other) => other.isSealed && other.id !== row.id && isSamePair(other, row),
      ),
      quotes: await recordedQuotes(tx, agreement),
    };
  });
}

function signersAmong({ row }: FoundAgreement) {
  return (signatures: readonly SignatureRow[]): readonly SignedBy[] =>
    signatures.map(({ partyId, name, signedAt }) => ({
      party: partyId === row.sellerId ? row.sellerName : row.buyerName,
      name,
      signedAt,
    }));
}

function versionOf(
  { row, agreement, effectiveFrom }: AgreedTerms,
  { isInForce, signatures }: Pick<AgreementVersion, 'isInForce' | 'signatures'>,
): AgreementVersion {
  return {
    version: row.version,
    effectiveFrom,
    isInForce,
    sections: agreementInWords(agreement),
    fingerprint: row.fingerprint,
    signatures,
  };
}

async function lotParts(
  tx: Transaction,
  lotId: string | null | undefined,
): Promise<Pick<AgreementPage, 'lot' | 'lotTests'>> {
  const lot = lotId ? await readLot(tx, lotId) : undefined;
  if (!lot) return { lot: undefined, lotTests: [] };
  return {
    lot: { id: lot.id, number: lot.number, address: lot.address },
    lotTests: (lotOf(lot.document).tests ?? []).map(figuresOf),
  };
}
