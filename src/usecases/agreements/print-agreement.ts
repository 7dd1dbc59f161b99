/**
 * An agreement as PDF, version by version: its words, its signatures from the record, its fingerprint and its file.
 */
import type { PaperSignature } from '../../documents/agreement/agreement-paper.ts';
import type { FontBytes } from '../../documents/pdf/typeface.ts';
import { agreementName } from '../../domain/agreement/agreement-name.ts';
import { readClosing, readSerials, readSignings } from '../../store/rows/signing-rows.ts';
import { type Context, permit } from '../context.ts';
import { Refusal } from '../refusal.ts';
import { type AgreedTerms, type FoundAgreement, findAgreement } from './find-agreement.ts';
import { lastMoment, type PrintedPaper, paperName, renderPaper } from './render-paper.ts';

export interface AgreementToPrint {
  readonly agreementId: string;
  /** Undefined for the newest. */
  readonly version: number | undefined;
  readonly fonts: FontBytes;
}

/** Refuses `not-allowed`, `not-found` (also for a version that there is none of), `bad-input`. */
export async function printAgreement(
  context: Context,
  { agreementId, version, fonts }: AgreementToPrint,
): Promise<PrintedPaper> {
  permit(context, 'read');
  const { paper, createdOn } = await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findAgreement(tx, agreementId);
    const wanted = found.versions.find(({ row }) => row.version === (version ?? found.row.version));
    if (!wanted) throw new Refusal('not-found', `There is no version ${version} of this agreement.`);
    const signing = (await readSignings(tx, agreementId)).find(
      ({ versionId }) => versionId === wanted.row.versionId,
    );
    const serial = (await readSerials(tx)).get(agreementId) ?? null;
    const { row, agreement, effectiveFrom } = wanted;
    const name = agreementName({ serial, number: row.number, seller: row.sellerName });
    const signatures = (signing?.signatures ?? []).map(
      ({ partyId, name: typed, signedAt }): PaperSignature => ({
        party: partyId === row.sellerId ? row.sellerName : row.buyerName,
        side: partyId === row.sellerId ? 'seller' : 'buyer',
        name: typed,
        signedAt,
      }),
    );
    const closedOn = (await readClosing(tx, agreementId))?.lastDeliveryOn;
    return {
      createdOn: lastMoment(signatures),
      paper: {
        title: row.version === 1 ? name : `${name}, version ${row.version}`,
        agreement,
        canonical: row.document,
        fingerprint: row.fingerprint,
        // What was signed elsewhere is a copy of its file: the record knows nothing of its signatures.
        ...(signing ? { version: String(row.version) } : {}),
        ...(serial === null ? {} : { serial: String(serial) }),
        ...(effectiveFrom === null ? {} : { effectiveFrom }),
        signatures,
        standing: standing(found, { wanted, isSigned: signing !== undefined, closedOn }),
      },
    };
  });
  const bytes = await renderPaper(paper, { fonts, createdOn });
  return { bytes, name: paperName('agreement', paper.agreement.id, version ?? Number(paper.version ?? 1)) };
}

interface Standing {
  readonly wanted: AgreedTerms;
  readonly isSigned: boolean;
  readonly closedOn: string | undefined;
}

/** What the paper is worth by the record as it is; nothing of the day on which it is printed. */
function standing({ versions }: FoundAgreement, { wanted, isSigned, closedOn }: Standing): string {
  const later = versions.find(({ row }) => row.version > wanted.row.version);
  return [
    isSigned
      ? 'Signed by both sides.'
      : 'Signed elsewhere and recorded in Huskledger by one of the two; this copy shows no signatures.',
    ...(later?.effectiveFrom
      ? [`Loads delivered from ${later.effectiveFrom} on come under version ${later.row.version}.`]
      : []),
    ...(closedOn === undefined
      ? []
      : [`Closed early by both sides: ${closedOn} is the last day of delivery.`]),
  ].join(' ');
}
