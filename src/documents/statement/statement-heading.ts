/**
 * The top of a statement: whose it is and with whom, over which time, and in one sentence who owes whom how much.
 */
import { factGridPieces } from '../pdf/fact-grid.ts';
import type { Piece } from '../pdf/flow.ts';
import { paragraphPieces } from '../pdf/paragraph.ts';
import { titlePiece } from '../pdf/title-piece.ts';
import { moneyText, type StatementSetting } from './statement-setting.ts';
import { balanceLabel, balanceSentence, partsSentence } from './statement-words.ts';

/** The pieces of the heading, tied together and to what follows. */
export function headingPieces(setting: StatementSetting): Piece[] {
  const { statement, sheet } = setting;
  const across = { left: sheet.left, width: sheet.width, keepWithNext: true };
  const parts = partsSentence(setting);
  return [
    titlePiece(
      {
        title: 'Statement',
        below: `${statement.from} to ${statement.to}, both days included`,
        label: balanceLabel(statement),
        figure: moneyText(statement.closing, setting),
        under: `at the end of ${statement.to}`,
      },
      sheet,
    ),
    ...factGridPieces({
      ...across,
      facts: [
        { label: 'For (“you” on this paper)', value: statement.of },
        { label: 'With', value: statement.with },
      ],
      columns: 2,
      label: sheet.label,
      value: sheet.party,
      gapBefore: 9,
    }),
    ...factGridPieces({
      ...across,
      facts: [
        {
          label: statement.agreements.length === 1 ? 'Agreement' : 'Agreements',
          value: statement.agreements.join(', '),
          span: 3,
        },
        { label: 'Currency of all amounts', value: statement.currency },
      ],
      columns: 4,
      label: sheet.label,
      value: sheet.body,
      gapBefore: 8,
    }),
    ...paragraphPieces({
      ...across,
      text: balanceSentence(setting),
      style: sheet.party,
      leading: 16,
      gapBefore: 11,
    }),
    ...(parts === ''
      ? []
      : paragraphPieces({ ...across, text: parts, style: sheet.body, leading: 13, gapBefore: 2 })),
  ];
}
