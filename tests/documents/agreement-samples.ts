/**
 * Agreements' papers to print in tests, made from the demo folders' files.
 */
import { readFileSync } from 'node:fs';
import type { AgreementPaper, PaperSignature } from '../../src/documents/agreement/agreement-paper.ts';
import { checkAgreement } from '../../src/domain/agreement/check-agreement.ts';
import { canonicalText, sha256 } from '../../src/journal/fingerprint.ts';

export const DEMOS = ['quillback-tarn-hollow', 'feldmark-metric', 'bushels-dry'] as const;

/** The document in a demo folder, as parsed. */
export function demoDocument(folder: (typeof DEMOS)[number]): Record<string, unknown> {
  const url = new URL(`../../demo/${folder}/agreement.json`, import.meta.url);
  return JSON.parse(readFileSync(url, 'utf8'));
}

export const sellerSigned: PaperSignature = {
  party: 'Quillback Acres',
  side: 'seller',
  name: 'Ottilie Zwerń',
  signedAt: '2026-08-14T21:04:27.512Z',
};

export const buyerSigned: PaperSignature = {
  party: 'Tarn Hollow Dairy',
  side: 'buyer',
  name: 'Bram Őrley',
  signedAt: '2026-08-16T05:40:09Z',
};

/** A paper of a document, not signed; throws where the document has problems. */
export function paperOf(
  document: Record<string, unknown>,
  more: Partial<AgreementPaper> = {},
): AgreementPaper {
  const { agreement, problems } = checkAgreement(document);
  if (!agreement) throw new Error(problems.map(({ message }) => message).join('\n'));
  const canonical = canonicalText(document);
  return {
    title: 'Offer, not signed',
    agreement,
    canonical,
    fingerprint: sha256(canonical),
    version: '2',
    signatures: [],
    standing: 'This is an offer: neither side has signed it.',
    ...more,
  };
}
