/**
 * An agreement as PDF: its words whole, who has signed, its fingerprint, and its canonical file attached byte for byte.
 * The same data, fonts and date give the same bytes. A text that the fonts cannot print gives problems instead.
 */
import { agreementInWords } from '../../domain/words/agreement-words.ts';
import { canonicalText, sha256 } from '../../journal/fingerprint.ts';
import { finishedBytes } from '../pdf/finished-bytes.ts';
import type { Piece } from '../pdf/flow.ts';
import { layPages } from '../pdf/lay-pages.ts';
import { type MissingCharacters, missingCharacters } from '../pdf/missing-characters.ts';
import type { Frame } from '../pdf/page-frame.ts';
import { PAPERS, type PaperName } from '../pdf/paper.ts';
import { PdfDocument } from '../pdf/pdf-document.ts';
import { type Sheet, sheetFor } from '../pdf/sheet.ts';
import { type FontBytes, openFaces } from '../pdf/typeface.ts';
import { type AgreementPaper, signedState } from './agreement-paper.ts';
import { ATTACHMENT_NAME, fingerprintPieces } from './fingerprint-block.ts';
import { headingPieces } from './paper-heading.ts';
import { prose, sectionHeading } from './prose.ts';
import { signaturePieces } from './signature-block.ts';

export interface AgreementOrder extends AgreementPaper {
  /** Two weights of one font, as TrueType bytes. */
  readonly fonts: FontBytes;
  /** Language tag of the words on the paper, such as "en-US". */
  readonly language: string;
  readonly paper: PaperName;
  /** Date and time for the document's own record, ISO 8601 with an offset; none where nothing dates it. */
  readonly createdOn?: string | undefined;
}

export type RenderedDocument =
  | { readonly ok: true; readonly bytes: Uint8Array; readonly pages: number }
  | { readonly ok: false; readonly problems: readonly MissingCharacters[] };

function frameOf(paper: AgreementPaper): Frame {
  const { agreement, version, fingerprint } = paper;
  const named = version === undefined ? agreement.id : `${agreement.id}, version ${version}`;
  return {
    running: titleOf(paper),
    foot: [`Agreement ${named}, ${signedState(paper)}`, `SHA-256 ${fingerprint}`],
  };
}

function titleOf({ title, agreement }: AgreementPaper): string {
  return `${title}: ${agreement.seller} to ${agreement.buyer}`;
}

/** The title has said already what this is, and an offer is no agreement. */
const OPENING = 'What is sold, and how it is counted';

function groupsOf(paper: AgreementPaper, sheet: Sheet): Piece[][] {
  const sections = agreementInWords(paper.agreement).map(({ heading, paragraphs }) => [
    ...sectionHeading(heading === `Agreement ${paper.agreement.id}` ? OPENING : heading, sheet),
    ...paragraphs.flatMap((text) => prose(text, sheet)),
  ]);
  const [first = [], ...others] = sections;
  return [
    [...headingPieces(paper, sheet), ...first],
    ...others,
    signaturePieces(paper, sheet),
    fingerprintPieces(paper, sheet),
  ];
}

/** Paper, file and fingerprint are one, or there is no paper. */
function assertOne({ agreement, canonical, fingerprint }: AgreementPaper): void {
  if (sha256(canonical) !== fingerprint)
    throw new RangeError(`the fingerprint of agreement ${agreement.id} is not that of its canonical text`);
  if (canonicalText(agreement) !== canonical)
    throw new RangeError(`agreement ${agreement.id} is not what its canonical text says`);
}

/**
 * Prints an agreement. Problems: `missing-characters` (the fonts lack a character, with its place).
 * Throws RangeError on an unreadable date or time, or where agreement, canonical text and fingerprint are not one,
 * which are faults of the caller.
 */
export async function renderAgreement(order: AgreementOrder): Promise<RenderedDocument> {
  const { fonts, language, createdOn, paper: paperName, ...data } = order;
  assertOne(data);
  const paper = PAPERS[paperName];
  const faces = openFaces(fonts);
  const { title, version, serial, effectiveFrom, signatures, standing } = data;
  const printed = { title, standing, version, serial, effectiveFrom, signatures, agreement: data.agreement };
  const problems = missingCharacters({ data: printed, place: '' }, faces);
  if (problems.length > 0) return { ok: false, problems };
  const document = new PdfDocument({ title: titleOf(data), language, createdOn, paper, faces });
  const sheet = sheetFor(paper, faces);
  const pages = layPages(document, { groups: groupsOf(data, sheet), frame: frameOf(data), sheet, paper });
  document.attach({
    name: ATTACHMENT_NAME,
    mimeType: 'application/json',
    description: `The canonical file of agreement ${data.agreement.id}, SHA-256 ${data.fingerprint}`,
    bytes: new TextEncoder().encode(data.canonical),
  });
  return { ok: true, bytes: await finishedBytes(document), pages };
}
