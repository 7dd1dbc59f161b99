/**
 * All of one question about a figure or a weight as PDF, to be read by somebody who has nothing else: from its record and
 * nothing else, so that both parties print the same bytes. A text that the fonts cannot print gives problems instead.
 */
import type { RetestRecord } from '../../domain/retests/retest-record.ts';
import { type Figures, figuresFor } from '../figures.ts';
import { finishedBytes } from '../pdf/finished-bytes.ts';
import { layPages } from '../pdf/lay-pages.ts';
import { type MissingCharacters, missingCharacters } from '../pdf/missing-characters.ts';
import type { Frame } from '../pdf/page-frame.ts';
import { PAPERS, type PaperName } from '../pdf/paper.ts';
import { PdfDocument } from '../pdf/pdf-document.ts';
import { sheetFor } from '../pdf/sheet.ts';
import { type Faces, type FontBytes, openFaces } from '../pdf/typeface.ts';
import { retestPieces } from './retest-pieces.ts';
import { type RetestWords, subjectInside } from './retest-setting.ts';
import { lastDay } from './retest-steps.ts';
import { stateOf } from './retest-words.ts';

export interface RetestOrder {
  readonly record: RetestRecord;
  /** Two weights of one font with tabular figures, as TrueType bytes. */
  readonly fonts: FontBytes;
  readonly paper: PaperName;
  /** Language tag of the words on the paper, such as "en-US"; figures are grouped as it does. */
  readonly language: string;
}

export type RetestOutcome =
  | { readonly ok: true; readonly bytes: Uint8Array; readonly pages: number }
  | { readonly ok: false; readonly problems: readonly MissingCharacters[] };

function titleOf(record: RetestRecord): string {
  return `Retest record: ${subjectInside(record)}, asked ${record.askedOn}`;
}

/** One page alone must not pass for a decided question. */
function frameOf(words: RetestWords): Frame {
  const { record } = words;
  const { agreement, agreementVersion, agreementFingerprint, seller, buyer } = record;
  return {
    running: `${titleOf(record)}. ${seller} and ${buyer}`,
    foot: [
      `${titleOf(record)}, ${stateOf(record).toLowerCase()} as of ${lastDay(words)}. Agreement ${agreement}, version ${agreementVersion}`,
      `SHA-256 ${agreementFingerprint}`,
    ],
  };
}

function problemsOf(record: RetestRecord, figures: Figures, faces: Faces): MissingCharacters[] {
  return [
    ...missingCharacters({ data: record, place: 'record' }, faces),
    // A language may write its thousands with a mark of its own.
    ...missingCharacters({ data: figures.show('-1234567.8'), place: 'language' }, faces),
  ];
}

/**
 * Prints one question. Problems: `missing-characters` (the fonts lack a character, with its place). Throws RangeError on
 * an unreadable moment or amount, which are faults of the caller.
 */
export async function renderRetest(order: RetestOrder): Promise<RetestOutcome> {
  const { record, language } = order;
  const paper = PAPERS[order.paper];
  const faces = openFaces(order.fonts);
  const figures = figuresFor(language);
  const problems = problemsOf(record, figures, faces);
  if (problems.length > 0) return { ok: false, problems };
  const createdOn = `${lastDay({ record, figures })}T00:00:00Z`;
  const pdf = new PdfDocument({ title: titleOf(record), language, createdOn, paper, faces });
  const sheet = sheetFor(paper, faces);
  const pages = layPages(pdf, {
    groups: retestPieces({ record, figures, sheet }),
    frame: frameOf({ record, figures }),
    sheet,
    paper,
  });
  return { ok: true, bytes: await finishedBytes(pdf), pages };
}
