/**
 * The three weights of a ticket, large: gross and tare each with its moment and scale, and what is left of them.
 */
import type { Piece } from '../pdf/flow.ts';
import { paragraphPieces } from '../pdf/paragraph.ts';
import type { Sheet } from '../pdf/sheet.ts';
import type { TicketPaper, TicketWeight } from './ticket-paper.ts';

const ROW = 30;

export function weightPieces(paper: TicketPaper, sheet: Sheet): Piece[] {
  const rows = [
    weightRow('Gross', paper.gross, sheet),
    weightRow('Tare', paper.tare, sheet),
    netRow(paper.net, sheet),
  ];
  const said = paper.apart.flatMap((sentence) =>
    paragraphPieces({
      text: sentence,
      left: sheet.left,
      width: sheet.width,
      style: sheet.strong,
      leading: 13,
      gapBefore: 4,
      keepWithNext: true,
    }),
  );
  return [...rows, ...said];
}

function weightRow(what: string, { weight, at, scale }: TicketWeight, sheet: Sheet): Piece {
  return {
    height: ROW,
    gapBefore: 4,
    keepWithNext: true,
    draw: (ink, top) => {
      const baseline = top + 20;
      ink.text(what, sheet.left, baseline, sheet.heading);
      ink.textEndingAt(weight, sheet.left + sheet.width * 0.46, baseline, sheet.figure);
      const beside = sheet.left + sheet.width * 0.5;
      ink.text(`weighed ${at}`, beside, top + 11, sheet.body);
      ink.text(scale === undefined ? 'scale not named' : `on ${scale}`, beside, top + 24, sheet.body);
      ink.lines([[sheet.left, top + ROW, sheet.right, top + ROW]], sheet.hairline);
    },
  };
}

function netRow(net: string, sheet: Sheet): Piece {
  return {
    height: ROW,
    gapBefore: 2,
    keepWithNext: true,
    draw: (ink, top) => {
      const baseline = top + 21;
      ink.text('Net', sheet.left, baseline, sheet.heading);
      ink.textEndingAt(net, sheet.left + sheet.width * 0.46, baseline, sheet.figure);
      ink.text('gross less tare', sheet.left + sheet.width * 0.5, baseline, sheet.label);
      ink.lines([[sheet.left, top + ROW, sheet.right, top + ROW]], sheet.rule);
    },
  };
}
