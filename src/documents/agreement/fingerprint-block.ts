/**
 * The fingerprint, what it stands for, and how anybody checks it against the attached file.
 */
import type { Piece } from '../pdf/flow.ts';
import { paragraphPieces } from '../pdf/paragraph.ts';
import type { Sheet } from '../pdf/sheet.ts';
import type { AgreementPaper } from './agreement-paper.ts';
import { prose, sectionHeading } from './prose.ts';

export const ATTACHMENT_NAME = 'agreement.json';

/**
 * The pieces, tied together. The commands for Windows and Mac are from memory; `sha256sum` was tried on a saved file.
 */
export function fingerprintPieces({ fingerprint, version }: AgreementPaper, sheet: Sheet): Piece[] {
  return [
    ...sectionHeading('The fingerprint', sheet),
    ...prose(
      `The fingerprint is the SHA-256 of the canonical agreement file (RFC 8785); that file is attached to this PDF as ${ATTACHMENT_NAME}, and anybody can check that it gives these 64 digits:`,
      sheet,
      true,
    ),
    ...paragraphPieces({
      text: fingerprint,
      left: sheet.left,
      width: sheet.width,
      style: sheet.strong,
      leading: 14,
      gapBefore: 4,
      keepWithNext: true,
    }),
    ...paragraphPieces({
      text: `The words above are said from that file, and one changed letter or figure in it gives other digits. Who signed, and when, is not in the file${version === undefined ? '' : ' but in the record'}. To check, save the attachment (most readers list it beside a paper clip) and run certutil -hashfile ${ATTACHMENT_NAME} SHA256 on Windows, shasum -a 256 ${ATTACHMENT_NAME} on a Mac, or sha256sum ${ATTACHMENT_NAME} on Linux.`,
      left: sheet.left,
      width: sheet.width,
      style: sheet.label,
      leading: 10.5,
      gapBefore: 5,
    }),
  ];
}
