/**
 * An agreement's paper in bytes, the way every paper of the record is printed. The same record gives the same bytes to
 * both parties, each time.
 */
import type { AgreementPaper } from '../../documents/agreement/agreement-paper.ts';
import { renderAgreement } from '../../documents/agreement/render-agreement.ts';
import type { FontBytes } from '../../documents/pdf/typeface.ts';
import { readerUnits } from '../../domain/agreement/reader-units.ts';
import { Refusal } from '../refusal.ts';

/** The words on the paper are English, and figures are written the English way. */
const LANGUAGE = 'en-US';

export interface PrintedPaper {
  readonly bytes: Uint8Array;
  /** Without ".pdf": "agreement-L3-A7F2-version-2". */
  readonly name: string;
}

/** `createdOn` is a moment of the record, never of the printing. Refuses `bad-input` where a character cannot be printed. */
export async function renderPaper(
  paper: AgreementPaper,
  { fonts, createdOn }: { readonly fonts: FontBytes; readonly createdOn: string | undefined },
): Promise<Uint8Array> {
  const printed = await renderAgreement({
    ...paper,
    fonts,
    createdOn,
    language: LANGUAGE,
    paper: readerUnits(paper.agreement).weight === 'kg' ? 'a4' : 'letter',
  });
  if (printed.ok) return printed.bytes;
  throw new Refusal('bad-input', printed.problems.map(({ message }) => message).join('\n'));
}

/** A name for the file, of plain characters. */
export function paperName(kind: 'agreement' | 'offer', number: string, version: number): string {
  return `${kind}-${number.replace(/[^A-Za-z0-9.-]+/g, '-')}-version-${version}`;
}

/** The last of some moments, written alike: ISO 8601 in UTC. */
export function lastMoment(signatures: readonly { readonly signedAt: string }[]): string | undefined {
  return signatures
    .map(({ signedAt }) => signedAt)
    .sort()
    .at(-1);
}
