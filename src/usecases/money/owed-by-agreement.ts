/**
 * What the buyer of each agreement owes in all: what is invoiced and not paid, and what has settled and is on no invoice yet,
 * less the advances that will be taken off it.
 */
import { add, decimal, decimalPlaces, type Exact, negate, ZERO } from '../../domain/numbers/exact.ts';
import { printFixed } from '../../domain/numbers/printing.ts';
import { type Account, STATEMENT_ACCOUNTS } from '../../journal/accounts.ts';
import type { BalanceRow } from '../../store/rows/journal-rows.ts';
import type { UsableAdvanceRow } from '../../store/rows/money/load-standing-rows.ts';

const OWED: readonly string[] = [...STATEMENT_ACCOUNTS, 'buyer-owes-seller'] satisfies readonly Account[];

/** Decimal strings by agreement, with the decimals of their currency; an agreement without money is not there. */
export function owedByAgreement(
  balances: readonly BalanceRow[],
  advances: readonly UsableAdvanceRow[],
): ReadonlyMap<string, string> {
  const owed = new Map<string, Exact>();
  const raise = (agreementId: string, by: Exact) =>
    owed.set(agreementId, add(owed.get(agreementId) ?? ZERO, by));
  for (const { agreementId, account, balance } of balances) {
    if (OWED.includes(account)) raise(agreementId, decimal(balance));
  }
  for (const { agreementId, advance } of advances) raise(agreementId, negate(decimal(advance)));
  return new Map([...owed].map(([id, amount]) => [id, printFixed(amount, decimalPlaces(amount) ?? 0)]));
}
