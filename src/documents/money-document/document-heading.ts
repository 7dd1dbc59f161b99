/**
 * The top of a money document: what it is and what is owed, who drew it up, the parties, the days, what it corrects
 * and why, and to whom payment is made out.
 */
import { documentName, type MoneyDocument } from '../../domain/money/money-document.ts';
import { boxedPiece } from '../pdf/boxed-text.ts';
import { type Fact, factGridPieces } from '../pdf/fact-grid.ts';
import type { Piece } from '../pdf/flow.ts';
import type { TextStyle } from '../pdf/page-ink.ts';
import { paragraphPieces } from '../pdf/paragraph.ts';
import type { Sheet } from '../pdf/sheet.ts';
import { titlePiece } from '../pdf/title-piece.ts';
import { type DocumentSetting, moneyText } from './document-setting.ts';
import {
  correctedNames,
  dueText,
  hasDueDate,
  jointPayment,
  noteEffect,
  payableLabel,
  selfBilling,
} from './document-words.ts';

/** "2026-09-14", or "2026-09-14 to 2026-10-02". */
function periodText({ period }: MoneyDocument): string | undefined {
  if (period === null) return undefined;
  return period.from === period.to ? period.from : `${period.from} to ${period.to}`;
}

function factsOf(document: MoneyDocument): Fact[] {
  const { agreement, kind, corrects } = document;
  const delivered = periodText(document);
  const isAbout = kind === 'interest' || kind === 'fee';
  return [
    { label: 'Issued', value: document.issuedOn },
    ...(hasDueDate(document) ? [{ label: 'Due', value: document.dueOn }] : []),
    ...(delivered === undefined ? [] : [{ label: 'Delivered', value: delivered }]),
    { label: 'Agreement', value: `${agreement.number}, version ${agreement.version}` },
    { label: 'Feed', value: document.feed, span: 3 },
    { label: 'Currency of all amounts', value: document.currency },
    ...(corrects.length === 0
      ? []
      : [{ label: isAbout ? 'Is about' : 'Corrects', value: correctedNames(document), span: 4 }]),
  ];
}

function sentencePieces(text: string | undefined, style: TextStyle, sheet: Sheet): Piece[] {
  if (text === undefined || text === '') return [];
  return paragraphPieces({
    text,
    left: sheet.left,
    width: sheet.width,
    style,
    leading: style.size * 1.35,
    gapBefore: 7,
    keepWithNext: true,
  });
}

/** The pieces of the heading, tied together and to what follows. */
export function headingPieces(setting: DocumentSetting): Piece[] {
  const { document, sheet } = setting;
  const across = { left: sheet.left, width: sheet.width, label: sheet.label, keepWithNext: true };
  const amount = moneyText(document.totals.payable, setting);
  const joint = jointPayment(document);
  return [
    titlePiece(
      {
        title: documentName(document),
        below: `issued ${document.issuedOn}`,
        label: payableLabel(document),
        figure: amount,
        under: dueText(document),
      },
      sheet,
    ),
    ...sentencePieces(selfBilling(document), sheet.strong, sheet),
    ...factGridPieces({
      ...across,
      facts: [
        { label: 'Seller', value: document.seller },
        { label: 'Buyer', value: document.buyer },
      ],
      columns: 2,
      value: sheet.party,
      gapBefore: 9,
    }),
    ...factGridPieces({ ...across, facts: factsOf(document), columns: 4, value: sheet.body, gapBefore: 8 }),
    ...sentencePieces(document.reason === null ? undefined : `Why: ${document.reason}`, sheet.body, sheet),
    ...sentencePieces(noteEffect(document, amount), sheet.strong, sheet),
    ...(joint === undefined
      ? []
      : [boxedPiece({ text: joint, style: sheet.strong, gapBefore: 9, keepWithNext: true }, sheet)]),
  ];
}
