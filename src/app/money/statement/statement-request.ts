/**
 * What an address asks of a statement, the same for the page, its PDF and its CSV.
 */
import type { StatementFileWanted } from '../../../usecases/money/print-money.ts';
import { addressOf } from '../../place/asked.ts';

export function statementWanted(read: (name: string) => string | undefined): StatementFileWanted {
  return {
    partnerId: read('partner'),
    agreementId: read('agreement'),
    from: read('from'),
    to: read('to'),
    currency: read('currency'),
  };
}

/** The wishes in the address of a request. */
export function wantedIn(request: Request): StatementFileWanted {
  const { searchParams } = new URL(request.url);
  return statementWanted((name) => searchParams.get(name) || undefined);
}

export function statementAddress(
  path: string,
  { partnerId, agreementId, from, to, currency }: StatementFileWanted,
): string {
  return addressOf(path, { partner: partnerId, agreement: agreementId, from, to, currency });
}
