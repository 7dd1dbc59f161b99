/**
 * Where a party wants its money. The newest version counts.
 */
import type { PayeeAccount } from '../../../domain/money/payment-instruction.ts';
import type { Transaction } from '../../open-store.ts';
import { insertRows } from '../insert-rows.ts';

export interface PayeeAccountRow extends PayeeAccount {
  readonly partyId: string;
  readonly version: number;
  /** ISO 8601, UTC. */
  readonly recordedAt: string;
}

/** The accounts of some parties, oldest version first. */
export async function readAccounts(
  tx: Transaction,
  partyIds: readonly string[],
): Promise<readonly PayeeAccountRow[]> {
  return await tx.$queryRawUnsafe<PayeeAccountRow[]>(
    `SELECT party_id AS "partyId", version, holder, kind, number, bank_kind AS "bankKind", bank,
       to_char(recorded_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "recordedAt"
     FROM payee_account WHERE party_id = ANY($1::uuid[]) ORDER BY party_id, version`,
    partyIds,
  );
}

export async function insertAccount(
  tx: Transaction,
  account: PayeeAccountRow & { readonly recordedBy: string },
): Promise<void> {
  await insertRows(tx, 'payee_account', {
    party_id: ['uuid', [account.partyId]],
    version: ['int', [account.version]],
    holder: ['text', [account.holder]],
    kind: ['text', [account.kind]],
    number: ['text', [account.number]],
    bank_kind: ['text', [account.bankKind]],
    bank: ['text', [account.bank]],
    recorded_at: ['timestamptz', [account.recordedAt]],
    recorded_by: ['uuid', [account.recordedBy]],
  });
}
