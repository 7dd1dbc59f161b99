/**
 * What the journal remembers of signatures.
 */
import type { ClosingFact, SignatureFact, SigningFact } from '../../journal/facts.ts';
import type { ClosingRow, SignatureRow, SigningRow } from '../../store/rows/signing-rows.ts';

export function signingFact(row: SigningRow): SigningFact {
  return {
    agreementVersion: row.versionId,
    seller: row.sellerId,
    serial: row.serial === null ? null : String(row.serial),
    offer: row.offerId,
    offerVersion: String(row.offerVersion),
    lot: row.lotId,
    effectiveFrom: row.effectiveFrom,
    signatures: row.signatures.map(signatureFact),
  };
}

export function closingFact(row: ClosingRow): ClosingFact {
  return {
    lastDeliveryOn: row.lastDeliveryOn,
    offer: row.offerId,
    offerVersion: String(row.offerVersion),
    fingerprint: row.fingerprint,
    signatures: row.signatures.map(signatureFact),
  };
}

function signatureFact({ partyId, personId, name, fingerprint, signedAt }: SignatureRow): SignatureFact {
  return { party: partyId, person: personId, name, fingerprint, signedAt };
}
