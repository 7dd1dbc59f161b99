/**
 * The top of an agreement's paper: what it is and how it stands, whose it is, and what is sold.
 */
import { FEEDS } from '../../domain/agreement/measures.ts';
import { type Fact, factGridPieces } from '../pdf/fact-grid.ts';
import type { Piece } from '../pdf/flow.ts';
import { paragraphPieces } from '../pdf/paragraph.ts';
import type { Sheet } from '../pdf/sheet.ts';
import type { AgreementPaper } from './agreement-paper.ts';

function rulePiece(sheet: Sheet): Piece {
  return {
    height: 2,
    gapBefore: 7,
    keepWithNext: true,
    draw: (ink, top) => ink.lines([[sheet.left, top + 1, sheet.right, top + 1]], sheet.colourRule),
  };
}

function namingFacts({ agreement, version, serial, effectiveFrom }: AgreementPaper): Fact[] {
  return [
    { label: 'Agreement file', value: agreement.id },
    ...(version === undefined ? [] : [{ label: 'Version', value: version }]),
    ...(serial === undefined ? [] : [{ label: 'Number in the seller’s list', value: serial }]),
    ...(effectiveFrom === undefined
      ? []
      : [{ label: 'For loads delivered from', value: `${effectiveFrom} on` }]),
  ];
}

/** The pieces of the heading, tied together and to what follows. */
export function headingPieces(paper: AgreementPaper, sheet: Sheet): Piece[] {
  const { agreement } = paper;
  const across = { left: sheet.left, width: sheet.width, keepWithNext: true };
  const naming = namingFacts(paper);
  return [
    ...paragraphPieces({ ...across, text: paper.title, style: sheet.title, leading: 30 }),
    ...paragraphPieces({ ...across, text: paper.standing, style: sheet.strong, leading: 13 }),
    rulePiece(sheet),
    ...factGridPieces({
      ...across,
      facts: [
        { label: 'Seller', value: agreement.seller },
        { label: 'Buyer', value: agreement.buyer },
      ],
      columns: 2,
      label: sheet.label,
      value: sheet.party,
      gapBefore: 9,
    }),
    ...factGridPieces({
      ...across,
      facts: [{ label: 'What is sold', value: FEEDS[agreement.feed] }],
      columns: 1,
      label: sheet.label,
      value: sheet.body,
      gapBefore: 8,
    }),
    ...factGridPieces({
      ...across,
      facts: naming,
      columns: Math.max(2, naming.length),
      label: sheet.label,
      value: sheet.body,
      gapBefore: 5,
    }),
  ];
}
