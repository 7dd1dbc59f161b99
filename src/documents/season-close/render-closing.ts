/**
 * A closing statement as PDF, from the statement, its signatures and its seal, and nothing of its reader: once sealed, both
 * parties print the same bytes for good. A text that the fonts cannot print gives problems instead.
 */
import { figuresFor } from '../figures.ts';
import { finishedBytes } from '../pdf/finished-bytes.ts';
import { layPages } from '../pdf/lay-pages.ts';
import { type MissingCharacters, missingCharacters } from '../pdf/missing-characters.ts';
import type { Frame } from '../pdf/page-frame.ts';
import { PAPERS, type PaperName } from '../pdf/paper.ts';
import { PdfDocument } from '../pdf/pdf-document.ts';
import { sheetFor } from '../pdf/sheet.ts';
import { type FontBytes, openFaces } from '../pdf/typeface.ts';
import { type ClosingPaper, stateOf } from './closing-paper.ts';
import { closingPieces } from './closing-pieces.ts';

export interface ClosingOrder {
  readonly closing: ClosingPaper;
  /** Two weights of one font with tabular figures, as TrueType bytes. */
  readonly fonts: FontBytes;
  readonly paper: PaperName;
  /** Language tag of the words on the paper, such as "en-US"; figures are grouped as it does. */
  readonly language: string;
}

export type ClosingOutcome =
  | { readonly ok: true; readonly bytes: Uint8Array; readonly pages: number }
  | { readonly ok: false; readonly problems: readonly MissingCharacters[] };

function titleOf({ statement: { agreement, seller, buyer } }: ClosingPaper): string {
  return `Closing statement of agreement ${agreement.number}, ${seller} and ${buyer}`;
}

/** One page alone must not pass for a sealed season. */
function frameOf(closing: ClosingPaper): Frame {
  const { statement, seal } = closing;
  const { number, versions } = statement.agreement;
  const state = stateOf(closing);
  return {
    // What is not sealed says so before it says what it is.
    running: seal ? `${titleOf(closing)}: ${state}` : `${state.toUpperCase()}. ${titleOf(closing)}`,
    foot: [
      `Closing statement of agreement ${number}, ${state}`,
      seal ? `Mark ${seal.mark}` : `Version ${versions.length} of the agreement, SHA-256 ${versions.at(-1)}`,
    ],
  };
}

/**
 * Prints one closing statement, dated by its seal. Problems: `missing-characters` (the fonts lack a character, with its
 * place). Throws RangeError where the seal is over another journal than the statement's, which is a fault of the caller.
 */
export async function renderClosing(order: ClosingOrder): Promise<ClosingOutcome> {
  const { closing, language } = order;
  const { statement, seal } = closing;
  if (seal && seal.root !== statement.journal.root) {
    throw new RangeError('The seal is over another journal than the statement names');
  }
  const paper = PAPERS[order.paper];
  const faces = openFaces(order.fonts);
  const figures = figuresFor(language);
  const problems = [
    ...missingCharacters({ data: closing, place: 'closing' }, faces),
    // A language may write its thousands with a mark of its own.
    ...missingCharacters({ data: figures.show('-1234567.8'), place: 'language' }, faces),
  ];
  if (problems.length > 0) return { ok: false, problems };
  const createdOn = seal?.sealedAt ?? `${statement.drawnUpOn}T00:00:00Z`;
  const pdf = new PdfDocument({ title: titleOf(closing), language, createdOn, paper, faces });
  const sheet = sheetFor(paper, faces);
  const pages = layPages(pdf, {
    groups: closingPieces({ paper: closing, figures, sheet }),
    frame: frameOf(closing),
    sheet,
    paper,
  });
  return { ok: true, bytes: await finishedBytes(pdf), pages };
}
