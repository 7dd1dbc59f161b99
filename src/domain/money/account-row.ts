/**
 * Where a party wants its money, as a form gives it.
 */
import type { Row } from '../tables/row.ts';
import { isBic, isIban, isRoutingNumber, plainIban } from './account-numbers.ts';
import type { PayeeAccount } from './payment-instruction.ts';

export const ACCOUNT_COLUMNS = {
  required: ['holder', 'kind', 'number'],
  optional: ['bank_kind', 'bank'],
} as const;

/** An account, or undefined where the row has faults. Check digits are held to what their standards say. */
export function readAccountRow(row: Row): PayeeAccount | undefined {
  const holder = row.name('holder');
  const kind = row.word('kind', ['iban', 'other']);
  const number = kind === 'iban' ? plainIban(row.text('number')) : row.name('number');
  if (kind === 'iban' && !isIban(number)) {
    row.fault(
      'number',
      'is no IBAN: its check digits do not fit. Compare it with the bank’s paper, digit by digit',
    );
  }
  const bankKind = row.text('bank_kind') === '' ? null : (row.word('bank_kind', ['bic', 'aba']) ?? null);
  const bank = row.optionalName('bank').replaceAll(' ', '') || null;
  if (kind === 'other' && bankKind === null) {
    row.fault('bank_kind', 'must say by what the bank is named: bic, or aba for a routing number');
  }
  if (bankKind !== null && bank === null) row.fault('bank', 'must not be empty');
  if (bankKind === null && bank !== null) row.fault('bank_kind', 'must be bic or aba, since a bank is named');
  if (bankKind === 'aba' && bank !== null && !isRoutingNumber(bank)) {
    row.fault('bank', 'is no routing number: nine digits whose check digit fits');
  }
  if (bankKind === 'bic' && bank !== null && !isBic(bank)) {
    row.fault('bank', 'is no BIC: eight or eleven letters and digits');
  }
  if (row.problems.length > 0 || !kind) return undefined;
  return { holder, kind, number, bankKind, bank };
}
