/**
 * What the balance does not say: deliveries that are on no invoice yet, and lenders with a lien.
 */
import type { NotInvoiced } from '../../domain/money/statement.ts';
import { prose, sectionHeading } from '../agreement/prose.ts';
import { signOf } from '../amount-strings.ts';
import type { Piece } from '../pdf/flow.ts';
import { moneyText, type StatementSetting } from './statement-setting.ts';

function loadsText(count: number): string {
  return count === 1 ? '1\u00a0load' : `${count}\u00a0loads`;
}

/** The words that the table of entries has over its columns. */
function wayOf(amount: string): string {
  return signOf(amount) < 0 ? 'in their favour' : 'in your favour';
}

/** One agreement's deliveries in sentences; the parts that come to nothing are left out. */
export function notInvoicedSentence(part: NotInvoiced, setting: StatementSetting): string {
  const { settledLoads, unpricedLoads, valuedLoads } = part;
  const money = (amount: string) => moneyText(amount, setting);
  const settled = `${loadsText(settledLoads)} ${settledLoads === 1 ? 'is' : 'are'} settled and on no invoice yet: ${money(part.settled)} ${wayOf(part.settled)}, once invoiced.`;
  const unpriced = `${loadsText(unpricedLoads)} ${unpricedLoads === 1 ? 'is' : 'are'} without a result or a price yet.`;
  const which = valuedLoads === unpricedLoads ? (valuedLoads === 1 ? 'It is' : 'They are') : undefined;
  const some = `${valuedLoads} of them ${valuedLoads === 1 ? 'is' : 'are'}`;
  const valued =
    valuedLoads === 0
      ? 'Nothing can be said of their value yet.'
      : `${which ?? some} thought to come to about ${money(part.provisional)} ${wayOf(part.provisional)}: this is an estimate, and not owed.`;
  const advances = `Advances of ${money(part.advances)} are invoiced already for loads that are not settled; they are in the balance above.`;
  return [
    `Agreement ${part.agreement}:`,
    ...(settledLoads === 0 ? [] : [settled]),
    ...(unpricedLoads === 0 ? [] : [unpriced, valued]),
    ...(signOf(part.advances) === 0 ? [] : [advances]),
  ].join(' ');
}

function saysSomething({ settledLoads, unpricedLoads, advances }: NotInvoiced): boolean {
  return settledLoads > 0 || unpricedLoads > 0 || signOf(advances) !== 0;
}

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
