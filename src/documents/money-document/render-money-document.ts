/**
 * An invoice, an advance, a note, interest or a fee as PDF, from the document as it was issued and nothing else.
 * The same document, fonts and language give the same bytes, for years. A text that the fonts cannot print gives
 * problems instead.
 */
import { documentName, type MoneyDocument } from '../../domain/money/money-document.ts';
import { type Figures, figuresFor } from '../figures.ts';
import { type InvoiceProblem, vagueFeed } from '../invoice/text-problems.ts';
import { finishedBytes } from '../pdf/finished-bytes.ts';
import type { Piece } from '../pdf/flow.ts';
import { layPages } from '../pdf/lay-pages.ts';
import { missingCharacters } from '../pdf/missing-characters.ts';
import type { Frame } from '../pdf/page-frame.ts';
import { PAPERS, type PaperName } from '../pdf/paper.ts';
import { PdfDocument } from '../pdf/pdf-document.ts';
import { sheetFor } from '../pdf/sheet.ts';
import { type Faces, type FontBytes, openFaces } from '../pdf/typeface.ts';
import { headingPieces } from './document-heading.ts';
import type { DocumentSetting } from './document-setting.ts';
import { linesPieces } from './lines-table.ts';
import { advancePieces, deductionPieces } from './taken-off.ts';
import { termPieces, totalPieces } from './totals-block.ts';

export interface MoneyDocumentOrder {
  readonly document: MoneyDocument;
  /** Two weights of one font with tabular figures, as TrueType bytes. */
  readonly fonts: FontBytes;
  readonly paper: PaperName;
  /** Language tag of the words on the paper, such as "en-US"; figures are grouped as it does. */
  readonly language: string;
  /** Told how many pages have been drawn so far, for somebody who waits. */
  readonly onPage?: (pages: number) => void;
}

export type MoneyDocumentOutcome =
  | { readonly ok: true; readonly bytes: Uint8Array; readonly pages: number }
  | { readonly ok: false; readonly problems: readonly InvoiceProblem[] };

function titleOf(document: MoneyDocument): string {
  return `${documentName(document)}: ${document.seller} to ${document.buyer}`;
}

function frameOf(document: MoneyDocument): Frame {
  const { number, version, fingerprint } = document.agreement;
  return {
    running: titleOf(document),
    foot: [
      `${documentName(document)}, issued ${document.issuedOn}. Agreement ${number}, version ${version}`,
      `SHA-256 ${fingerprint}`,
    ],
  };
}

/** The heading with the first lines, the rest, and the totals tied to the last row before them. */
function groupsOf(setting: DocumentSetting): Piece[][] {
  const heading = headingPieces(setting);
  const [first = [], ...others] = [
    ...linesPieces(setting),
    ...deductionPieces(setting),
    ...advancePieces(setting),
  ];
  const groups = [[...heading, ...first], ...others];
  const last = groups.pop() ?? heading;
  const end = last.map((piece, index) =>
    index === last.length - 1 ? { ...piece, keepWithNext: true } : piece,
  );
  return [...groups, [...end, ...totalPieces(setting)], termPieces(setting)];
}

function problemsOf(document: MoneyDocument, figures: Figures, faces: Faces): InvoiceProblem[] {
  return [
    ...missingCharacters({ data: document, place: 'document' }, faces),
    // A language may write its thousands with a mark of its own.
    ...missingCharacters({ data: figures.show('-1234567.8'), place: 'language' }, faces),
    ...vagueFeed(document.feed, 'document.feed'),
  ];
}

/**
 * Prints one document. Problems: `missing-characters` (the fonts lack a character, with its place), `vague-feed` (the
 * feed is not named by its parts). Throws RangeError on an unreadable date or amount, which are faults of the caller.
 */
export async function renderMoneyDocument(order: MoneyDocumentOrder): Promise<MoneyDocumentOutcome> {
  const { document, language, onPage } = order;
  const paper = PAPERS[order.paper];
  const faces = openFaces(order.fonts);
  const figures = figuresFor(language);
  const problems = problemsOf(document, figures, faces);
  if (problems.length > 0) return { ok: false, problems };
  const createdOn = `${document.issuedOn}T00:00:00Z`;
  const pdf = new PdfDocument({ title: titleOf(document), language, createdOn, paper, faces });
  const sheet = sheetFor(paper, faces);
  let drawn = 0;
  const pages = layPages(pdf, {
    groups: groupsOf({ document, figures, sheet }),
    frame: frameOf(document),
    sheet,
    paper,
    onPage: () => {
      drawn++;
      onPage?.(drawn);
    },
  });
  return { ok: true, bytes: await finishedBytes(pdf), pages };
}
