/**
 * What the balance does not say: deliveries that are on no invoice yet, and lenders with a lien.
 */
import { prose, sectionHeading } from '../agreement/prose.ts';
import type { Piece } from '../pdf/flow.ts';
import type { StatementSetting } from './statement-setting.ts';
import { notInvoicedSentence, saysSomething } from './statement-words.ts';

/** Deliveries that are not in the balance; none where there are none. */
export function notInvoicedPieces(setting: StatementSetting): Piece[] {
  const parts = setting.statement.notInvoiced.filter(saysSomething);
  if (parts.length === 0) return [];
  return [
    ...sectionHeading('Delivered, and on no invoice yet', setting.sheet),
    ...parts.flatMap((part) => prose(notInvoicedSentence(part, setting), setting.sheet)),
  ];
}

/** Lenders with a recorded lien notice, and what it says of payment; none where there are none. */
export function lienPieces({ statement, sheet }: StatementSetting): Piece[] {
  if (statement.liens.length === 0) return [];
  return [
    ...sectionHeading('Liens', sheet),
    ...statement.liens.flatMap(({ agreement, lender, conditions }) =>
      prose(
        `Agreement ${agreement}: a lien notice of ${lender} is recorded${conditions === '' ? '.' : `. It says of payment: ${conditions}`}`,
        sheet,
      ),
    ),
  ];
}
