/**
 * The top of a closing statement: whether the season is sealed, the parties, the agreement, and what a paper that is not sealed
 * is worth.
 */
import { boxedPiece } from '../pdf/boxed-text.ts';
import { factGridPieces } from '../pdf/fact-grid.ts';
import type { Piece } from '../pdf/flow.ts';
import { titlePiece } from '../pdf/title-piece.ts';
import { type ClosingPaper, type ClosingSetting, SIDES, standingOf } from './closing-paper.ts';

/** Undefined once it is sealed. */
function warning(paper: ClosingPaper): string | undefined {
  const { statement, signatures } = paper;
  switch (standingOf(paper)) {
    case 'sealed':
      return undefined;
    case 'now':
      return `NOT SEALED, AND NOT SIGNED BY ANYBODY. This is how the season stands on ${statement.drawnUpOn}; the season goes on, and every figure here may change.`;
    case 'drawn up': {
      const missing = SIDES.filter((side) => !signatures.some((one) => one.side === side));
      return `NOT SEALED YET. The signature of ${missing.map((side) => statement[side]).join(' and of ')} is missing. Until both have signed, the season goes on, and another statement may take the place of this one.`;
    }
  }
}

/** The pieces of the heading, tied together and to what follows. */
export function headingPieces({ paper, sheet }: ClosingSetting): Piece[] {
  const { statement, seal, timeZone } = paper;
  const across = { left: sheet.left, width: sheet.width, label: sheet.label, keepWithNext: true };
  const text = warning(paper);
  return [
    titlePiece(
      {
        title: 'Closing statement',
        below: `What the season under agreement ${statement.agreement.number} came to`,
        label: 'This season is',
        figure: seal ? 'Sealed' : 'Not sealed',
        under: seal ? `on ${seal.on}` : '',
      },
      sheet,
    ),
    ...factGridPieces({
      ...across,
      facts: [
        { label: 'Seller', value: statement.seller },
        { label: 'Buyer', value: statement.buyer },
      ],
      columns: 2,
      value: sheet.party,
      gapBefore: 9,
    }),
    ...factGridPieces({
      ...across,
      facts: [
        { label: 'Agreement', value: statement.agreement.number },
        {
          label: standingOf(paper) === 'now' ? 'As it stands on' : 'Drawn up on',
          value: statement.drawnUpOn,
        },
        { label: 'Days and dates are those of', value: timeZone },
        { label: 'Currency of all amounts', value: statement.currency },
      ],
      columns: 4,
      value: sheet.body,
      gapBefore: 8,
    }),
    ...(text === undefined ? [] : [boxedPiece({ text, style: sheet.strong, gapBefore: 10 }, sheet)]),
  ];
}
