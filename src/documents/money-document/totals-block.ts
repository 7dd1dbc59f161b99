/**
 * What the document comes to: goods, less deductions, less advances, and what is left to pay; then whom to pay, and the
 * terms of payment.
 */
import { type MoneyDocument, SEASON_SUM_NAMES } from '../../domain/money/money-document.ts';
import { prose, sectionHeading } from '../agreement/prose.ts';
import { signOf, turned } from '../amount-strings.ts';
import type { Piece } from '../pdf/flow.ts';
import { paragraphPieces } from '../pdf/paragraph.ts';
import { type DocumentSetting, moneyText } from './document-setting.ts';
import { dueText, jointPayment, payableLabel } from './document-words.ts';

function goodsName({ kind, season, corrects }: MoneyDocument): string {
  if (season) return SEASON_SUM_NAMES[season];
  switch (kind) {
    case 'invoice':
      return 'Goods';
    case 'advance':
      return 'Advance';
    case 'credit-note':
    case 'debit-note':
      // What puts no document right is about no goods: costs, or a season as a whole.
      return corrects.length === 0 ? 'Sum of the lines' : 'Correction of the goods';
    case 'interest':
      return 'Interest';
    case 'fee':
      return 'Fee';
  }
}

/** What was taken off can be given back, by a credit note. */
function takenName(name: string, amount: string): string {
  return signOf(amount) < 0 ? `${name} given back` : `Less ${name.toLowerCase()}`;
}

function steps({ document }: DocumentSetting): { readonly name: string; readonly amount: string }[] {
  const { goods, deductions, advances } = document.totals;
  const isTaken = (amount: string, count: number) => count > 0 || signOf(amount) !== 0;
  return [
    { name: goodsName(document), amount: goods },
    ...(isTaken(deductions, document.deductions.length)
      ? [{ name: takenName('Deductions', deductions), amount: turned(deductions) }]
      : []),
    ...(isTaken(advances, document.advances.length)
      ? [{ name: takenName('Advances', advances), amount: turned(advances) }]
      : []),
  ];
}

function stepPiece(name: string, amount: string, { sheet }: DocumentSetting, isFirst: boolean): Piece {
  return {
    height: 14,
    gapBefore: isFirst ? 14 : 0,
    keepWithNext: true,
    draw: (ink, top) => {
      ink.text(name, sheet.left + sheet.width / 2, top + 10, sheet.body);
      ink.textEndingAt(amount, sheet.right, top + 10, sheet.body);
    },
  };
}

function payablePiece(setting: DocumentSetting): Piece {
  const { document, sheet } = setting;
  const style = { ...sheet.figure, size: 14 };
  const due = dueText(document);
  const height = 24;
  return {
    height,
    gapBefore: 4,
    keepWithNext: document.jointPayees.length > 0,
    draw: (ink, top) => {
      const label =
        signOf(document.totals.payable) > 0 && document.kind !== 'debit-note' ? 'To pay' : 'Total';
      ink.lines([[sheet.left, top, sheet.right, top]], sheet.rule);
      ink.text(label, sheet.left, top + 16.5, style);
      const named = style.face.width(`${label}  `, style.size);
      const words = payableLabel(document);
      const told = `${words.charAt(0).toLowerCase()}${words.slice(1)}${due === '' ? '' : `, ${due}`}`;
      ink.text(told, sheet.left + named, top + 16.5, sheet.quiet);
      ink.textEndingAt(moneyText(document.totals.payable, setting), sheet.right, top + 16.5, style);
      ink.lines([[sheet.left, top + height, sheet.right, top + height]], sheet.rule);
    },
  };
}

/** The steps to what is to be paid, tied together, and to whom it is made out. */
export function totalPieces(setting: DocumentSetting): Piece[] {
  const { document, figures, sheet } = setting;
  const joint = jointPayment(document);
  return [
    ...steps(setting).map(({ name, amount }, index) =>
      stepPiece(name, figures.show(amount), setting, index === 0),
    ),
    payablePiece(setting),
    ...(joint === undefined
      ? []
      : paragraphPieces({
          text: joint,
          left: sheet.left,
          width: sheet.width,
          style: sheet.strong,
          leading: 13,
          gapBefore: 6,
        })),
  ];
}

/** The terms as sentences; none where none are agreed. */
export function termPieces({ document, sheet }: DocumentSetting): Piece[] {
  if (document.terms.length === 0) return [];
  return [...sectionHeading('Terms', sheet), ...document.terms.flatMap((term) => prose(term, sheet))];
}
