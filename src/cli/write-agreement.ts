/**
 * `words --pdf`: an agreement's file printed as an unsigned copy, to be read at a table or signed by hand.
 */
import { renderAgreement } from '../documents/agreement/render-agreement.ts';
import { canonicalAgreement } from '../documents/agreement-fingerprint.ts';
import type { PaperName } from '../documents/pdf/paper.ts';
import type { Agreement } from '../domain/agreement/document.ts';
import { readerUnits } from '../domain/agreement/reader-units.ts';
import { readFonts } from '../files/read-fonts.ts';
import { WrongUse } from './exit-status.ts';
import { writeWhole } from './write-whole.ts';

export interface AgreementWriting {
  readonly agreement: Agreement;
  /** The document as it stands in the file. */
  readonly document: unknown;
  /** A file that ends in `.pdf`. */
  readonly out: string;
  /** Where not given, letter for pounds and A4 for metric agreements. */
  readonly paper: PaperName | undefined;
}

/** Writes the PDF and gives its pages. Throws `WrongUse`, with nothing written, where it cannot be printed or written. */
export async function writeAgreement({ agreement, document, out, paper }: AgreementWriting): Promise<number> {
  const printed = await renderAgreement({
    title: `Agreement ${agreement.id}, unsigned copy`,
    standing:
      'Printed from the agreement’s file: this paper does not show whether anybody has signed the agreement.',
    agreement,
    ...canonicalAgreement(document),
    signatures: [],
    fonts: await readFonts(),
    language: 'en-US',
    paper: paper ?? (readerUnits(agreement).weight === 'kg' ? 'a4' : 'letter'),
  });
  if (!printed.ok)
    throw new WrongUse(
      ['No PDF was written.', ...new Set(printed.problems.map(({ message }) => message))].join('\n'),
    );
  await writeWhole([{ path: out, bytes: printed.bytes }]);
  return printed.pages;
}
