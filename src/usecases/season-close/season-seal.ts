/**
 * A sealed season's signatures and seal, as they are shown, printed and saved.
 */
import type { SeasonFile } from '../../domain/season-close/season-file.ts';
import { sealMark } from '../../journal/seal-mark.ts';
import type { SealRow, SeasonCloseRow } from '../../store/rows/season-close-rows.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';

/** `seal` must be over the statement of `close`. */
export function sealOf(
  { row: { sellerId, sellerName, buyerName } }: FoundAgreement,
  close: SeasonCloseRow,
  seal: SealRow,
): Pick<SeasonFile, 'signatures' | 'seal'> {
  const signatures = close.signatures.map(({ partyId, name, signedAt }) => ({
    party: partyId === sellerId ? sellerName : buyerName,
    name,
    signedAt,
    fingerprint: close.fingerprint,
  }));
  const sealed = { root: seal.root, entries: String(seal.entryCount), sealedAt: seal.sealedAt };
  return {
    signatures,
    seal: { ...sealed, mark: sealMark({ ...sealed, statement: close.fingerprint, signatures }) },
  };
}
