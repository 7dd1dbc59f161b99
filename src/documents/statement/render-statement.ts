/**
 * A statement as PDF, told for its reader. The same statement, fonts and language give the same bytes. A text that the
 * fonts cannot print gives problems instead.
 */
import type { Statement } from '../../domain/money/statement.ts';
import { figuresFor } from '../figures.ts';
import { finishedBytes } from '../pdf/finished-bytes.ts';
import type { Piece } from '../pdf/flow.ts';
import { layPages } from '../pdf/lay-pages.ts';
import { type MissingCharacters, missingCharacters } from '../pdf/missing-characters.ts';
import type { Frame } from '../pdf/page-frame.ts';
import { PAPERS, type PaperName } from '../pdf/paper.ts';
import { PdfDocument } from '../pdf/pdf-document.ts';
import { sheetFor } from '../pdf/sheet.ts';
import { type FontBytes, openFaces } from '../pdf/typeface.ts';
import { lienPieces, notInvoicedPieces } from './beside-balance.ts';
import { entriesPieces } from './entries-table.ts';
import { ageingPieces, heldPieces, openPieces } from './open-items.ts';
import { headingPieces } from './statement-heading.ts';
import type { StatementSetting } from './statement-setting.ts';

export interface StatementOrder {
  readonly statement: Statement;
  /** Two weights of one font with tabular figures, as TrueType bytes. */
  readonly fonts: FontBytes;
  readonly paper: PaperName;
  /** Language tag of the words on the paper, such as "en-US"; figures are grouped as it does. */
  readonly language: string;
  /** Told how many pages have been drawn so far, for somebody who waits. */
  readonly onPage?: (pages: number) => void;
}

export type StatementOutcome =
  | { readonly ok: true; readonly bytes: Uint8Array; readonly pages: number }
  | { readonly ok: false; readonly problems: readonly MissingCharacters[] };

function titleOf({ of: reader, with: other, from, to }: Statement): string {
  return `Statement for ${reader} with ${other}, ${from} to ${to}`;
}

/** More agreements than this are named on the first page alone. */
const NAMED_AT_FOOT = 5;

function frameOf(statement: Statement): Frame {
  const { agreements, currency } = statement;
  const named =
    agreements.length === 1
      ? `Agreement ${agreements.join('')}`
      : agreements.length <= NAMED_AT_FOOT
        ? `Agreements ${agreements.join(', ')}`
        : `${agreements.length} agreements, named on page 1`;
  return { running: titleOf(statement), foot: [titleOf(statement), `${named}. Amounts in ${currency}`] };
}

function groupsOf(setting: StatementSetting): Piece[][] {
  return [
    [...headingPieces(setting), ...entriesPieces(setting)],
    ageingPieces(setting),
    openPieces(setting),
    heldPieces(setting),
    notInvoicedPieces(setting),
    lienPieces(setting),
  ].filter((group) => group.length > 0);
}

/**
 * Prints a statement, dated at its last day. Problems: `missing-characters` (the fonts lack a character, with its
 * place). Throws RangeError on an unreadable date or amount, which are faults of the caller.
 */
export async function renderStatement(order: StatementOrder): Promise<StatementOutcome> {
  const { statement, language, onPage } = order;
  const paper = PAPERS[order.paper];
  const faces = openFaces(order.fonts);
  const figures = figuresFor(language);
  const problems = [
    ...missingCharacters({ data: statement, place: 'statement' }, faces),
    // A language may write its thousands with a mark of its own.
    ...missingCharacters({ data: figures.show('-1234567.8'), place: 'language' }, faces),
  ];
  if (problems.length > 0) return { ok: false, problems };
  const createdOn = `${statement.to}T00:00:00Z`;
  const pdf = new PdfDocument({ title: titleOf(statement), language, createdOn, paper, faces });
  const sheet = sheetFor(paper, faces);
  let drawn = 0;
  const pages = layPages(pdf, {
    groups: groupsOf({ statement, figures, sheet }),
    frame: frameOf(statement),
    sheet,
    paper,
    onPage: () => {
      drawn++;
      onPage?.(drawn);
    },
  });
  return { ok: true, bytes: await finishedBytes(pdf), pages };
}
