/**
 * What the rows about money come to, held against what the journal's accounts stand at; and each document's own text.
 */

import { minorUnits } from '../../domain/money/minor-units.ts';
import { DOCUMENT_FORMAT, type MoneyDocument } from '../../domain/money/money-document.ts';
import { type Money, printAmount } from '../../domain/settlement/line.ts';
import { sha256 } from '../../journal/fingerprint.ts';
import type { StandingRows } from '../../store/rows/audit-rows.ts';
import type { BalanceRow } from '../../store/rows/journal-rows.ts';
import type { PrintedDocument } from '../../store/rows/money/document-rows.ts';
import { agreementOf } from '../agreements/find-agreement.ts';
import { moneyOfAgreement } from '../money/money-frame.ts';
import { liveHolds, standingBy } from '../money/money-rows.ts';

type RowFault = { readonly row: string; readonly message: string };

export interface MoneyGround {
  readonly rows: StandingRows;
  readonly balances: readonly BalanceRow[];
  readonly printed: readonly PrintedDocument[];
}

/** Every fault. Figures that somebody changed may be no figures at all. */
export function checkMoney(ground: MoneyGround): RowFault[] {
  try {
    return moneyFaults(ground);
  } catch (error) {
    const told = error instanceof Error ? error.message : String(error);
    return [{ row: 'money', message: `cannot be worked out again: ${told}` }];
  }
}

function moneyFaults({ rows, balances, printed }: MoneyGround): RowFault[] {
  const { agreement: row, money: recorded } = rows;
  if (recorded.documents.length + recorded.payments.length === 0) return [];
  const of = moneyOfAgreement({ row, agreement: agreementOf(row.document) });
  // A sealed journal takes no entry, so that its accounts stand as they were when the balance went elsewhere.
  const kept = { ...recorded, broughtForward: [] };
  const standing = standingBy(kept, of);
  const held = liveHolds(kept).reduce((sum, { fact }) => sum + minorUnits(fact.amount, of.money), 0n);
  const open = standing.documents.reduce((sum, document) => sum + document.open, 0n);
  const expected: readonly (readonly [string, bigint])[] = [
    ['invoices', open - held],
    ['held', held],
    ['on-account', -standing.onAccount],
  ];
  return [
    ...standing.documents
      .filter((document) => document.open < 0n || (document.payable > 0n && document.held > document.open))
      .map(({ id }) => ({ row: `money_document ${id}`, message: 'is paid or held above its amount' })),
    ...expected.flatMap(([account, amount]) => oddBalance({ account, amount, balances, money: of.money })),
    ...printed.flatMap(({ id, document }) => oddDocument({ id, document, rows })),
  ];
}

function oddBalance(of: {
  readonly account: string;
  readonly amount: bigint;
  readonly balances: readonly BalanceRow[];
  readonly money: Money;
}): RowFault[] {
  const { account, amount, balances, money } = of;
  const kept = balances.find((row) => row.account === account && row.unit === money.currency);
  const stands = kept ? minorUnits(kept.balance, money) : 0n;
  if (stands === amount) return [];
  return [
    {
      row: `account ${account} in ${money.currency}`,
      message: `stands at ${printAmount(stands, money)}; by invoices, payments and holds it should be ${printAmount(amount, money)}`,
    },
  ];
}

/** A document that does not say what its row does. */
function oddDocument({
  id,
  document,
  rows,
}: {
  id: string;
  document: string;
  rows: StandingRows;
}): RowFault[] {
  const fact = rows.money.documents.find((row) => row.id === id)?.fact;
  const odd = (message: string): RowFault[] => [{ row: `money_document ${id}`, message }];
  if (!fact || sha256(document) !== fact.fingerprint) return odd('does not have the fingerprint of its text');
  const said = JSON.parse(document) as MoneyDocument;
  const agrees =
    said.format === DOCUMENT_FORMAT &&
    said.number === fact.serial &&
    said.kind === fact.kind &&
    said.issuedOn === fact.issuedOn &&
    said.dueOn === fact.dueOn &&
    said.currency === fact.currency &&
    said.totals.payable === fact.payable;
  return agrees ? [] : odd('says something else than its row');
}
