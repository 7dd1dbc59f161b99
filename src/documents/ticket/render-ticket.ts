/**
 * A scale ticket as PDF. The same data, fonts and date give the same bytes. A text that the fonts cannot print gives
 * problems instead.
 */
import { finishedBytes } from '../pdf/finished-bytes.ts';
import type { Piece } from '../pdf/flow.ts';
import { layPages } from '../pdf/lay-pages.ts';
import { type MissingCharacters, missingCharacters } from '../pdf/missing-characters.ts';
import { colourOf } from '../pdf/page-ink.ts';
import { PAPERS, type Paper, type PaperName } from '../pdf/paper.ts';
import { paragraphPieces } from '../pdf/paragraph.ts';
import { PdfDocument } from '../pdf/pdf-document.ts';
import { type Sheet, sheetFor } from '../pdf/sheet.ts';
import { type FontBytes, openFaces } from '../pdf/typeface.ts';
import { entryPieces } from './entry-grid.ts';
import type { TicketCorrection, TicketPaper, TicketScale } from './ticket-paper.ts';
import { weightPieces } from './weights-block.ts';

export interface TicketOrder extends TicketPaper {
  /** Two weights of one font, as TrueType bytes. */
  readonly fonts: FontBytes;
  /** Language tag of the words on the paper, such as "en-US". */
  readonly language: string;
  readonly paper: PaperName;
  /** Date and time for the document's own record, ISO 8601 with an offset. */
  readonly createdOn?: string | undefined;
}

export type RenderedTicket =
  | { readonly ok: true; readonly bytes: Uint8Array; readonly pages: number }
  | { readonly ok: false; readonly problems: readonly MissingCharacters[] };

/**
 * Problems: `missing-characters` (the fonts lack a character, with its place). Throws RangeError on an unreadable date.
 */
export async function renderTicket(order: TicketOrder): Promise<RenderedTicket> {
  const { fonts, language, createdOn, paper: paperName, ...data } = order;
  const paper = PAPERS[paperName];
  const faces = openFaces(fonts);
  const problems = missingCharacters({ data, place: '' }, faces);
  if (problems.length > 0) return { ok: false, problems };
  const title = `${titleOf(data)}: ${data.seller} to ${data.buyer}`;
  const document = new PdfDocument({ title, language, createdOn, paper, faces });
  const sheet = sheetFor(paper, faces);
  const pages = layPages(document, {
    groups: [ticketPieces(data, { sheet, paper })],
    frame: { running: title, foot: footOf(data) },
    sheet,
    paper,
  });
  return { ok: true, bytes: await finishedBytes(document), pages };
}

function titleOf({ ticket, voidReason }: TicketPaper): string {
  return voidReason === undefined ? `Scale ticket ${ticket}` : `Void scale ticket ${ticket}`;
}

function footOf({ ticket, agreement, version, voidReason, entry }: TicketPaper): string[] {
  const state = voidReason === undefined ? '' : ', void';
  return [
    `Ticket ${ticket} of agreement ${agreement}, version ${version}${state}; entry ${entry.sequence} of its journal`,
    `SHA-256 ${entry.fingerprint}`,
  ];
}

function ticketPieces(data: TicketPaper, { sheet, paper }: { sheet: Sheet; paper: Paper }): Piece[] {
  return [
    ...(data.voidReason === undefined ? [] : [voidMark(sheet, paper)]),
    ...headingPieces(data, sheet),
    ...entryPieces(
      [
        { label: 'Seller', value: data.seller },
        { label: 'Buyer', value: data.buyer },
        { label: 'What was weighed', value: data.feed },
        { label: `Date, ${data.timeZone}`, value: data.date },
      ],
      { sheet, columns: 2, keepWithNext: true },
    ),
    ...weightPieces(data, sheet),
    ...entryPieces(
      [
        { label: 'Vehicle', value: data.truck },
        { label: 'Plate', value: data.plate },
        { label: 'Hauled', value: data.haul },
        { label: 'Sample', value: data.sample },
        { label: 'Moisture by hand meter', value: data.moisture },
        { label: 'Agreement', value: data.agreement },
      ],
      { sheet, columns: 3, keepWithNext: true },
    ),
    ...scalePieces(data.scales, sheet),
    ...weigherPieces(data, sheet),
    ...correctionPieces(data.corrections, sheet),
  ];
}

function headingPieces(data: TicketPaper, sheet: Sheet): Piece[] {
  const across = { left: sheet.left, width: sheet.width, keepWithNext: true };
  const standing =
    data.voidReason === undefined
      ? data.version === '1'
        ? ''
        : `Version ${data.version}: this ticket was put right; what changed and why stands below.`
      : `Void: ${data.voidReason} Nothing was delivered by this ticket, and its number stays taken.`;
  return [
    ...paragraphPieces({ ...across, text: titleOf(data), style: sheet.title, leading: 30 }),
    ...(standing === ''
      ? []
      : paragraphPieces({ ...across, text: standing, style: sheet.strong, leading: 13 })),
    {
      height: 2,
      gapBefore: 7,
      keepWithNext: true,
      draw: (ink, top) => ink.lines([[sheet.left, top + 1, sheet.right, top + 1]], sheet.colourRule),
    },
  ];
}

/** Pale, so that what stands over it can still be read. */
const PALE = colourOf('e3cfc8');
const VOID_SIZE = 190;

/** VOID across the page, drawn first: all else stands over it. */
function voidMark(sheet: Sheet, paper: Paper): Piece {
  return {
    height: 0,
    keepWithNext: true,
    draw: (ink) => {
      const style = { face: sheet.title.face, size: VOID_SIZE, colour: PALE };
      const baseline = paper.height * 0.56;
      const width = style.face.width('VOID', VOID_SIZE);
      ink.text('VOID', (paper.width - width) / 2, baseline, style);
      const edge = { colour: PALE, width: 6 };
      ink.lines(
        [
          [sheet.left, paper.height * 0.9, sheet.right, baseline + 40],
          [sheet.left, baseline - VOID_SIZE * 0.7 - 40, sheet.right, paper.height * 0.1],
        ],
        edge,
      );
    },
  };
}

function scalePieces(scales: readonly TicketScale[], sheet: Sheet): Piece[] {
  if (scales.length === 0) {
    return entryPieces(
      [
        { label: 'Scale and place of weighing', value: undefined },
        { label: 'Test and certificate', value: undefined },
      ],
      { sheet, columns: 2, keepWithNext: true },
    );
  }
  return scales.flatMap((scale) => [
    ...entryPieces(
      [
        { label: 'Scale', value: `${scale.name}, of ${scale.owner}` },
        { label: 'Place of weighing', value: scale.place },
        { label: 'Capacity by division', value: scale.range },
        {
          label: 'Accuracy class',
          value: `${scale.accuracyClass}, ${scale.isLegalForTrade ? 'legal for trade' : 'not legal for trade'}`,
        },
        { label: 'Certificate', value: scale.certificate },
      ],
      { sheet, columns: 3, keepWithNext: true },
    ),
    ...scale.test.flatMap((sentence) =>
      paragraphPieces({
        text: sentence,
        left: sheet.left,
        width: sheet.width,
        style: scale.isDoubtful ? sheet.strong : sheet.body,
        leading: 13,
        gapBefore: 2,
        keepWithNext: true,
      }),
    ),
  ]);
}

/** Who weighed, and a line to sign on; the line of a void ticket is struck out by its mark. */
function weigherPieces({ weigher }: TicketPaper, sheet: Sheet): Piece[] {
  const half = sheet.left + sheet.width * 0.5;
  return [
    ...entryPieces([{ label: 'Weigher', value: weigher }], { sheet, columns: 2, keepWithNext: true }),
    {
      height: 40,
      keepWithNext: false,
      draw: (ink, top) => {
        ink.lines([[half, top + 26, sheet.right, top + 26]], sheet.rule);
        ink.text('Weigher’s signature', half, top + 36, sheet.label);
      },
    },
  ];
}

function correctionPieces(corrections: readonly TicketCorrection[], sheet: Sheet): Piece[] {
  if (corrections.length === 0) return [];
  const across = { left: sheet.left, width: sheet.width };
  return [
    ...paragraphPieces({
      ...across,
      text: 'What was put right',
      style: sheet.heading,
      leading: 17,
      gapBefore: 10,
      keepWithNext: true,
    }),
    ...corrections.flatMap(({ version, at, reason, isVoid, changes }) => [
      ...paragraphPieces({
        ...across,
        text: `Version ${version}, ${at}${isVoid ? ', voided' : ''}: ${reason}`,
        style: sheet.strong,
        leading: 13,
        gapBefore: 4,
        keepWithNext: changes.length > 0,
      }),
      ...changes.flatMap((text) => paragraphPieces({ ...across, text, style: sheet.body, leading: 13 })),
    ]),
  ];
}
